import { RoastError } from '../errors.js';

/**
 * How area grows with the distance from the middle: as r⁰ (slab, between its two faces), r¹ (cylinder, per metre of length)
 * or r² (sphere). One exponent covers all three.
 */
export type ShapeExponent = 0 | 1 | 2;

/**
 * Nodes of one radial line as fractions of its radius. Vertex-centred: the first node is the axis and the last the surface,
 * so both are unknowns, and each owns the volume between the midpoints to its neighbours.
 */
export interface RadialMesh {
  readonly exponent: ShapeExponent;
  /** Shells, counted as intervals; there is one node more. */
  readonly shells: number;
  /** Node positions r/R, from 0 to 1. */
  readonly node: Float64Array;
  /** Outer face of each node's volume, r/R; the last is the surface. */
  readonly face: Float64Array;
  /** Volume of each node over R^(exponent + 1), per unit of {@link unitArea}. */
  readonly volume: Float64Array;
  /** Share of the whole volume, summing to 1. */
  readonly share: Float64Array;
  /** (face area)/(distance between nodes) for the face outside each node, over R^(exponent - 1); 0 for the last. */
  readonly link: Float64Array;
  /** Surface area is this times R^exponent: 1, 2π or 4π. */
  readonly unitArea: number;
}

const UNIT_AREA = [1, 2 * Math.PI, 4 * Math.PI] as const;

/** Exponent of the grading towards the surface, where steep profiles live; 1 would be uniform. Chosen by mesh study. */
export const GRADING = 1.3;

/**
 * Radial mesh graded towards the surface: r_i = R (1 - (1 - i/N)^1.3).
 *
 * @param shells - intervals N, 4 to 1024
 * @throws RoastError `out-of-range`
 * @example
 * radialMesh(32, 1).node[32] // => 1
 */
export function radialMesh(shells: number, exponent: ShapeExponent, grading = GRADING): RadialMesh {
  if (!Number.isInteger(shells) || shells < 4 || shells > 1024) {
    throw new RoastError(`a line has ${shells} shells; it takes a whole number from 4 to 1024`, {
      code: 'out-of-range',
      path: ['shells'],
      found: shells,
      accepted: 'a whole number from 4 to 1024',
    });
  }
  const count = shells + 1;
  const node = Float64Array.from({ length: count }, (_, i) => 1 - (1 - i / shells) ** grading);
  const face = new Float64Array(count);
  const volume = new Float64Array(count);
  const share = new Float64Array(count);
  const link = new Float64Array(count);
  const unitArea = UNIT_AREA[exponent];
  const power = exponent + 1;
  let inside = 0;
  for (let i = 0; i < count; i++) {
    const outer = i === shells ? 1 : (node[i] + node[i + 1]) / 2;
    const upTo = outer ** power;
    face[i] = outer;
    volume[i] = (upTo - inside) / power;
    share[i] = upTo - inside;
    if (i < shells) link[i] = outer ** exponent / (node[i + 1] - node[i]);
    inside = upTo;
  }
  return { exponent, shells, node, face, volume, share, link, unitArea };
}

/**
 * Value at `fraction` of the radius from node values, by cubic interpolation in r², in which a smooth profile about the axis
 * is nearly straight.
 *
 * @param values - at least `shells + 1` numbers from `offset` on, in node order
 * @example
 * const { body, stages } = cook
 * const { mesh } = body.body
 * // half-way out, at the first station, when the cook ends
 * valueAtRadius(mesh, stages[stages.length - 1].endFieldC, 0.5, 0)
 */
export function valueAtRadius(
  mesh: RadialMesh,
  values: ArrayLike<number>,
  fraction: number,
  offset = 0,
): number {
  const { node, shells } = mesh;
  if (fraction <= 0) return values[offset];
  if (fraction >= 1) return values[offset + shells];
  let upper = 1;
  while (node[upper] < fraction) upper++;
  const first = Math.min(Math.max(upper - 2, 0), shells - 3);
  const x = fraction * fraction;
  let sum = 0;
  for (let i = first; i < first + 4; i++) {
    let weight = 1;
    for (let j = first; j < first + 4; j++) {
      if (j !== i) weight *= (x - node[j] ** 2) / (node[i] ** 2 - node[j] ** 2);
    }
    sum += weight * values[offset + i];
  }
  return sum;
}
