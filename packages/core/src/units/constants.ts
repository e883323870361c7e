/** Stefan-Boltzmann constant [W/(m²·K⁴)]. Source: CODATA 2018. */
export const STEFAN_BOLTZMANN = 5.670374419e-8;

/** Specific gas constant of water vapour [J/(kg·K)]: CODATA 2018 molar gas constant over 18.01528 g/mol. */
export const VAPOUR_GAS_CONSTANT = 461.523;

/** Standard atmosphere [Pa]. Source: ISO 2533, exact. */
export const STANDARD_ATMOSPHERE_PA = 101_325;

/** Ratio of the molar masses of water and dry air [-]: 18.01528 / 28.9647. Source: ISO 2533 (air). */
export const VAPOUR_AIR_MOLAR_RATIO = 0.62198;
