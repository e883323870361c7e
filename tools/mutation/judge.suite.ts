import '../../tests/judge/safety.test.js';
import '../../tests/judge/scales.test.js';
import '../../tests/judge/slices.test.js';
import '../../tests/judge/warnings.test.js';
import '../../tests/judge/wording.test.js';
import '../../tests/properties/seating.test.js';
import '../../tests/published/lethality.test.js';
