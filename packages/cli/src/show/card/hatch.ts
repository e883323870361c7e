import type { Mark, PointMm } from './drawing.js';

/** How a band is printed: a grey tone and lines at angles [degrees] a spacing [mm] apart. More done is darker and denser. */
export interface BandPrint {
  readonly tone: number;
  readonly angles: readonly number[];
  readonly spacingMm: number;
}

/** From the rarest band up. Tone alone tells neighbours apart on a good printer, the lines on a poor one. */
const PRINTS: readonly BandPrint[] = [
  { tone: 0, angles: [], spacingMm: 1 },
  { tone: 0.04, angles: [0], spacingMm: 2.6 },
  { tone: 0.08, angles: [45], spacingMm: 2 },
  { tone: 0.14, angles: [45], spacingMm: 1.1 },
  { tone: 0.2, angles: [45, 135], spacingMm: 1.8 },
  { tone: 0.3, angles: [45, 135], spacingMm: 1 },
  { tone: 0.42, angles: [0, 45, 90, 135], spacingMm: 1.1 },
];

/** Print of a band by its place in the scale. */
export const printOf = (index: number): BandPrint => PRINTS[Math.min(index, PRINTS.length - 1)];

const LINE_MM = 0.14;
const LINE_TONE = 0.75;

/** An area in the print of its band: its tone, then its lines. */
export function bandArea(rings: readonly (readonly PointMm[])[], index: number): Mark[] {
  const { tone, angles, spacingMm } = printOf(index);
  return [
    { kind: 'area', rings, tone },
    ...angles.flatMap((angle) =>
      hatch(rings, angle, spacingMm).map(
        (points): Mark => ({ kind: 'line', points, widthMm: LINE_MM, tone: LINE_TONE }),
      ),
    ),
  ];
}

/**
 * Straight lines that fill an area, cut off at its outline: the rings are turned so that the lines lie level, each level is cut
 * with all edges, and every other piece between the cuts is inside (even-odd rule).
 */
export function hatch(
  rings: readonly (readonly PointMm[])[],
  angleDeg: number,
  spacingMm: number,
): [PointMm, PointMm][] {
  const angle = (angleDeg * Math.PI) / 180;
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  const turn = ([x, y]: PointMm): PointMm => [x * cos + y * sin, y * cos - x * sin];
  const back = (x: number, y: number): PointMm => [x * cos - y * sin, x * sin + y * cos];
  const turned = rings.map((ring) => ring.map(turn));
  const levels = turned.flat().map(([, y]) => y);
  const lines: [PointMm, PointMm][] = [];
  const first = Math.ceil(Math.min(...levels) / spacingMm) * spacingMm;
  for (let y = first; y < Math.max(...levels); y += spacingMm) {
    const cuts = turned
      .flatMap((ring) =>
        ring.map((from, i): number | undefined => {
          const to = ring[(i + 1) % ring.length];
          if (from[1] <= y === to[1] <= y) return undefined;
          return from[0] + ((y - from[1]) / (to[1] - from[1])) * (to[0] - from[0]);
        }),
      )
      .filter((x) => x !== undefined)
      .sort((a, b) => a - b);
    for (let i = 0; i + 1 < cuts.length; i += 2)
      lines.push([back(cuts[i], y), back(cuts[i + 1], y)]);
  }
  return lines;
}
