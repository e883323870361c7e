import {
  bandIndex,
  hottestProfile,
  type Plan,
  thicknessText,
  type UnitSystem,
  upperEdge,
} from '@roastsim/core';
import { initials } from '../section.js';
import type { Drawing, Mark, PointMm } from './drawing.js';
import { bandArea } from './hatch.js';

const POINTS = 72; // of an ellipse
const LABEL_MM = 24; // room for labels on the right
const LABEL_GAP_MM = 3.7;
const LABEL_PT = 8;
const MARGIN_MM = 0.6;
const THINNEST_MM = { metric: 0.5, us: 1.27 } as const; // of a labelled ring: less is said as 0 mm, 0.0 in

/** A ring of one band: from the outer to the inner fraction of the radius. */
interface Ring {
  readonly index: number;
  readonly inner: number;
  readonly outer: number;
}

/** Rings of the bands the hottest moments fall in, from the centre out. */
export function ringsOf(plan: Plan, atMm: number): Ring[] {
  const { history, aim } = plan;
  const hottestC = hottestProfile(history, atMm);
  const { node } = history.body.body.mesh;
  const rings: Ring[] = [];
  let inner = 0;
  let index = bandIndex(aim.scale, hottestC[0]);
  for (let j = 1; j < node.length; j++) {
    while (hottestC[j] >= upperEdge(aim.scale, index)) {
      const edgeC = upperEdge(aim.scale, index);
      const part = (edgeC - hottestC[j - 1]) / (hottestC[j] - hottestC[j - 1]);
      const outer = node[j - 1] + part * (node[j] - node[j - 1]);
      rings.push({ index, inner, outer });
      inner = outer;
      index++;
    }
  }
  rings.push({ index, inner, outer: 1 });
  return rings;
}

/** Index of the slice that is shown cut across: the one aimed at, else the middle one. */
export const sectionSlice = ({ slices, aim }: Plan): number =>
  aim.slice < 0 ? Math.floor((slices.length - 1) / 2) : aim.slice;

/**
 * Cross-section of the aimed-at slice (else the middle one): its rings of doneness, as wide and high as it lies.
 *
 * @param heightMm - of the drawing; the section fills it
 */
export function sectionDrawing(plan: Plan, units: UnitSystem, heightMm: number): Drawing {
  const { slices, aim, roast } = plan;
  const slice = slices[sectionSlice(plan)];
  const ry = heightMm / 2 - MARGIN_MM;
  const rx = ry / roast.aspect;
  const [cx, cy] = [rx + MARGIN_MM, heightMm / 2];
  const ellipse = (fraction: number): PointMm[] =>
    Array.from({ length: POINTS }, (_, i) => {
      const angle = (2 * Math.PI * i) / POINTS;
      return [cx + fraction * rx * Math.cos(angle), cy + fraction * ry * Math.sin(angle)];
    });
  const rings = ringsOf(plan, slice.middleMm);
  const marks: Mark[] = rings.flatMap(({ index, inner, outer }) =>
    bandArea(inner > 0 ? [ellipse(outer), ellipse(inner)] : [ellipse(outer)], index),
  );
  for (const { outer } of rings) {
    const closed = ellipse(outer);
    const widthMm = outer === 1 ? 0.45 : 0.2;
    marks.push({ kind: 'line', points: [...closed, closed[0]], widthMm, tone: 1 });
  }
  marks.push(...labels(plan, units, rings, slice.diameterMm, [cx, cy, rx, ry]));
  const names = rings.map(({ index }) => aim.scale.bands[index].name);
  return {
    widthMm: 2 * rx + 2 * MARGIN_MM + LABEL_MM,
    heightMm,
    marks,
    alt:
      `Cross-section of slice ${slices.indexOf(slice) + 1}, ${thicknessText(slice.diameterMm, units)} across; ` +
      `from the centre out: ${names.join(', ')}.`,
  };
}

/** Band and thickness of each ring, beside the section, joined to its ring by a line. */
function labels(
  plan: Plan,
  units: UnitSystem,
  rings: readonly Ring[],
  diameterMm: number,
  [cx, cy, rx, ry]: readonly [number, number, number, number],
): Mark[] {
  const shown = rings.filter(
    ({ inner, outer }) => ((outer - inner) * diameterMm) / 2 >= THINNEST_MM[units],
  );
  const firstY = cy - ((shown.length - 1) * LABEL_GAP_MM) / 2;
  // the outermost ring gets the topmost label, so that no two lines cross
  return [...shown].reverse().flatMap(({ index, inner, outer }, i): Mark[] => {
    const y = firstY + i * LABEL_GAP_MM;
    const middle = (inner + outer) / 2;
    const sine = Math.max(-0.95, Math.min(0.95, (y - cy) / ry / Math.max(middle, 0.15)));
    const from: PointMm = [cx + middle * rx * Math.sqrt(1 - sine * sine), cy + middle * ry * sine];
    const labelX = cx + rx + 2.6;
    const thick = thicknessText(((outer - inner) * diameterMm) / 2, units);
    const leader = [from, [labelX - 0.6, y] as const];
    return [
      { kind: 'line', points: leader, widthMm: 0.7, tone: 0 },
      { kind: 'line', points: leader, widthMm: 0.2, tone: 1 },
      {
        kind: 'text',
        at: [labelX, y + 1],
        text: `${initials(plan.aim.scale.bands[index].name)} ${thick}`,
        sizePt: LABEL_PT,
        anchor: 'start',
        bold: inner === 0,
        tone: 1,
      },
    ];
  });
}
