export { checkList, checkName, checkNumber, checkObject } from './checks.js';
export {
  STANDARD_ATMOSPHERE_PA,
  STEFAN_BOLTZMANN,
  VAPOUR_AIR_MOLAR_RATIO,
  VAPOUR_GAS_CONSTANT,
} from './constants.js';
export { inches, KG_PER_POUND, MM_PER_INCH, ounces, pounds } from './massLength.js';
export { celsius, fahrenheit, fahrenheitRise, kelvin } from './temperature.js';
export {
  durationText,
  lengthText,
  massText,
  riseText,
  temperatureText,
  thicknessText,
  type UnitSystem,
} from './text.js';
