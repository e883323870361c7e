import { STANDARD_ATMOSPHERE_PA, VAPOUR_AIR_MOLAR_RATIO } from '../units/index.js';
import { airFilmToVapour } from './moistAir.js';

/**
 * What a surface sees at a moment. Oven air, a pan and a water bath differ only in these numbers, so the solver needs no
 * other word for them.
 */
export interface Surroundings {
  /** Temperature of what touches the surface: air, pan or water [°C]. */
  airC: number;
  /** Temperature of what it exchanges radiation with [°C]. */
  wallC: number;
  /** Coefficient between the touching medium and the surface [W/(m²·K)]. */
  filmWPerM2K: number;
  /** Emissivity times view factor [-]; 0 where there is no radiation. */
  radiationFactor: number;
  /** Pressure the vapour escapes against [Pa]. */
  vapourPa: number;
  /** Resistance of the boundary layer to vapour [Pa·m²·s/kg]; Infinity seals the surface. */
  vapourResistance: number;
  /** Whether vapour may condense on a surface colder than the dew point. */
  condenses: boolean;
}

/** Surroundings nobody has said anything of yet: every figure is to be written before it is used. */
export const unsaidSurroundings = (): Surroundings => ({
  airC: Number.NaN,
  wallC: Number.NaN,
  filmWPerM2K: Number.NaN,
  radiationFactor: Number.NaN,
  vapourPa: Number.NaN,
  vapourResistance: Number.NaN,
  condenses: true,
});

/**
 * Moist air moving past a surface: its resistance to vapour follows from its film by the Lewis relation, see `airFilmToVapour`.
 *
 * @example
 * const room = inAir({ airC: 22, wallC: 22, filmWPerM2K: 6, radiationFactor: 0.9, vapourPa: 1300 })
 */
export const inAir = ({
  airC,
  wallC,
  filmWPerM2K,
  radiationFactor,
  vapourPa,
}: Omit<Surroundings, 'vapourResistance' | 'condenses'>): Surroundings => ({
  airC,
  wallC,
  filmWPerM2K,
  radiationFactor,
  vapourPa,
  vapourResistance: 1 / airFilmToVapour(filmWPerM2K),
  condenses: true,
});

/** Vapour pressure [Pa] of air with `humidity` kg of water per kg of dry air, at standard pressure. */
export const vapourPressureOf = (humidity: number): number =>
  (STANDARD_ATMOSPHERE_PA * humidity) / (VAPOUR_AIR_MOLAR_RATIO + humidity);

/** Humidity [kg/kg dry air] of air with a vapour pressure [Pa], at standard pressure. */
export const humidityOf = (vapourPa: number): number =>
  (VAPOUR_AIR_MOLAR_RATIO * vapourPa) / (STANDARD_ATMOSPHERE_PA - vapourPa);
