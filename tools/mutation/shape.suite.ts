import '../../tests/order/tying.test.js';
import '../../tests/shape/bestFold.test.js';
import '../../tests/shape/faults.test.js';
import '../../tests/shape/folding.test.js';
import '../../tests/shape/profile.test.js';
import '../../tests/shape/roastShape.test.js';
