import '../../tests/properties/seating.test.js';
import '../../tests/published/lethality.test.js';
