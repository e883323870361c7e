import { besselJ0, firstModes, type Mode, type Shape } from './series.js';

/**
 * The one-term approximation of textbooks: the first term of the series alone, good from Fo 0.2 on. It is here to reproduce
 * books that use it, also where they should not.
 */
const modeOf = (shape: Shape, biot: number): Mode => firstModes(shape, biot, 1)[0];

const PROFILE: Readonly<Record<Shape, (argument: number) => number>> = {
  slab: Math.cos,
  cylinder: besselJ0,
  sphere: (z) => (z === 0 ? 1 : Math.sin(z) / z),
};

/** Theta at r/R by one term. */
export function oneTermTheta(shape: Shape, biot: number, fourier: number, radiusFraction: number) {
  const { zeta, coefficient } = modeOf(shape, biot);
  return coefficient * Math.exp(-zeta * zeta * fourier) * PROFILE[shape](zeta * radiusFraction);
}

/** Fourier number at which the centre's theta is `target`, by one term. */
export function oneTermFourier(shape: Shape, biot: number, target: number): number {
  const { zeta, coefficient } = modeOf(shape, biot);
  return Math.log(coefficient / target) / (zeta * zeta);
}

/** Surface over centre temperature excess: the same at all times by one term. */
export const surfaceOverCentre = (shape: Shape, biot: number): number =>
  PROFILE[shape](modeOf(shape, biot).zeta);

/** Share of the heat a sphere has taken up when its centre's theta is `centreTheta`, by one term. */
export function oneTermSphereHeat(biot: number, centreTheta: number): number {
  const { zeta } = modeOf('sphere', biot);
  return 1 - (3 * centreTheta * (Math.sin(zeta) - zeta * Math.cos(zeta))) / zeta ** 3;
}
