import type { RadialMesh } from './mesh.js';

/**
 * A body as the solver sees it: a row of stations, each a radial line, with their sizes. Nothing in here knows what kind of
 * roast it is.
 */
export interface Body {
  readonly mesh: RadialMesh;
  /** Stations in the row. */
  readonly stations: number;
  /** Line radius of each station [m]. */
  readonly radiusM: Float64Array;
  /** Length of each station along the axis [m]; for a slab or sphere 1, one face or one ball. */
  readonly lengthM: Float64Array;
  /** Outer surface of each station [m²], slant included. */
  readonly sideM2: Float64Array;
  /** True mass over the line's own mass [-]: cross-sections that are not round weigh a little more than their line. */
  readonly massFactor: Float64Array;
  /** Whether the two end faces exchange with the surroundings. */
  readonly endsExposed: boolean;
  /** Whether neighbouring stations exchange heat along the axis; only for cylinders. */
  readonly axial: boolean;
}

/** Volume of a station's line [m³]. */
export function lineVolume({ mesh, radiusM, lengthM }: Body, station: number): number {
  const power = mesh.exponent + 1;
  return (mesh.unitArea / power) * radiusM[station] ** power * lengthM[station];
}

/**
 * One line of one radius: an endless cylinder per metre, a slab per square metre and side, or a sphere.
 *
 * @example
 * const cylinder = singleLine(radialMesh(32, 1), 0.04)
 * cylinder.stations // => 1
 */
export function singleLine(mesh: RadialMesh, radiusM: number): Body {
  return {
    mesh,
    stations: 1,
    radiusM: Float64Array.of(radiusM),
    lengthM: Float64Array.of(1),
    sideM2: Float64Array.of(mesh.unitArea * radiusM ** mesh.exponent),
    massFactor: Float64Array.of(1),
    endsExposed: false,
    axial: false,
  };
}
