import '../../tests/numerics/lines.test.js';
import '../../tests/numerics/mesh.test.js';
import '../../tests/numerics/orders.test.js';
import '../../tests/properties/energy.test.js';
import '../../tests/properties/water.test.js';
import '../../tests/published/reference-lines.test.js';
