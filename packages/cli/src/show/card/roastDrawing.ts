import {
  bandIndex,
  diameterAt,
  lengthOf,
  lengthText,
  type Plan,
  type Slice,
  temperatureText,
  twineFor,
  type UnitSystem,
} from '@roastsim/core';
import { initials } from '../section.js';
import type { Drawing, Mark, PointMm } from './drawing.js';
import { bandArea } from './hatch.js';

const TALLEST_MM = 27; // of the roast itself
const ABOVE_MM = 6.4; // for the thermometer's mark
const BELOW_MM = 8.6; // for numbers and temperatures
const STEP_MM = 1; // between points of the outline
const TEXT_PT = 8;
const LETTER_PT = 9.5;
const NARROW_MM = 7.5; // a slice narrower than this shares its letter with its neighbours of the same band
const TIE_BEYOND_MM = 0.9;
const TIE_BULGE_MM = 1.1;
/** Look of the lines to cut along. */
const CUT = { widthMm: 0.25, tone: 0.9, dashMm: [1.1, 0.8] } as const;
const BULB_MM = 1.1;
const BULB_UP_MM = 3.4; // above the letters on the axis

/**
 * The roast from the side, thick end left, to scale along its length and across: its outline, the slices in the print of the band
 * their middle reaches, the ties, and where the thermometer goes.
 *
 * @param widthMm - width to fill; a short thick roast fills less of it
 */
export function roastDrawing(plan: Plan, units: UnitSystem, widthMm: number): Drawing {
  const { roast, slices, aim } = plan;
  const { profile } = roast;
  const lengthMm = 1000 * lengthOf(profile);
  const thickest = Math.max(...Array.from(profile.atM, (at) => 1000 * diameterAt(profile, at)));
  const scale = Math.min(widthMm / lengthMm, TALLEST_MM / thickest);
  const tallMm = thickest * scale;
  const axisY = ABOVE_MM + tallMm / 2;
  const left = (widthMm - lengthMm * scale) / 2;
  const x = (mm: number): number => left + mm * scale;
  const half = (mm: number): number => (1000 * diameterAt(profile, mm / 1000) * scale) / 2;
  const edge = (fromMm: number, toMm: number, side: 1 | -1): PointMm[] => {
    const pieces = Math.max(2, Math.ceil(((toMm - fromMm) * scale) / STEP_MM));
    return Array.from({ length: pieces + 1 }, (_, i) => {
      const at = fromMm + (i / pieces) * (toMm - fromMm);
      return [x(at), axisY + side * half(at)];
    });
  };
  const outline = (fromMm: number, toMm: number): PointMm[] => [
    ...edge(fromMm, toMm, -1),
    ...edge(fromMm, toMm, 1).reverse(),
  ];
  const bandIndexOf = (slice: Slice): number => bandIndex(aim.scale, slice.peakCentreC);
  const marks: Mark[] = slices.flatMap((slice) =>
    bandArea([outline(slice.fromMm, slice.toMm)], bandIndexOf(slice)),
  );
  for (const { toMm } of slices.slice(0, -1)) {
    marks.push({
      kind: 'line',
      points: [
        [x(toMm), axisY - half(toMm)],
        [x(toMm), axisY + half(toMm) + 1.2],
      ],
      ...CUT,
    });
  }
  marks.push({
    kind: 'line',
    points: [...outline(0, lengthMm), [x(0), axisY - half(0)]],
    widthMm: 0.45,
    tone: 1,
  });
  if (roast.tied) {
    for (const at of twineFor(profile).atMm) marks.push(...tie(x(at), axisY, half(at)));
  }
  if (roast.doubledFromM !== undefined) {
    const from = 1000 * roast.doubledFromM;
    marks.push({
      kind: 'line',
      points: [
        [x(from), axisY + 0.35 * half(from)],
        [x(lengthMm) - 1, axisY + 0.35 * half(lengthMm)],
      ],
      widthMm: 0.3,
      tone: 1,
      dashMm: [0.6, 1],
    });
  }
  marks.push(...letters(slices, plan, x, axisY), ...numbers(slices, units, x, axisY + tallMm / 2));
  const { atMm } = aim.point;
  if (atMm !== 'coldest') marks.push(...thermometer(x(atMm), axisY, half(atMm)));
  const rightIsFree = atMm === 'coldest' || x(atMm) < widthMm / 2;
  marks.push(...lineKey(rightIsFree ? widthMm - KEY_MM : 0, roast.tied));
  return {
    widthMm,
    heightMm: ABOVE_MM + tallMm + BELOW_MM,
    marks,
    alt: altText(plan, units, lengthMm),
  };
}

/** One letter for each run of slices of one band, or for each slice where there is room. */
function letters(
  slices: readonly Slice[],
  plan: Plan,
  x: (mm: number) => number,
  axisY: number,
): Mark[] {
  const runs: { fromMm: number; toMm: number; band: string }[] = [];
  for (const { fromMm, toMm, band } of slices) {
    const last = runs.at(-1);
    const narrow = x(toMm) - x(fromMm) < NARROW_MM;
    if (narrow && last?.band === band) last.toMm = toMm;
    else runs.push({ fromMm, toMm, band });
  }
  return runs.map(
    ({ fromMm, toMm, band }): Mark => ({
      kind: 'text',
      at: [(x(fromMm) + x(toMm)) / 2, axisY + 1.2],
      text: initials(band),
      sizePt: LETTER_PT,
      anchor: 'middle',
      bold: plan.aim.slice >= 0 && band === plan.slices[plan.aim.slice].band,
      tone: 1,
      haloMm: 0.9,
    }),
  );
}

/** Number and peak temperature under each slice; where slices are narrow, under every second, third... */
function numbers(
  slices: readonly Slice[],
  units: UnitSystem,
  x: (mm: number) => number,
  bottomY: number,
): Mark[] {
  const narrowest = Math.min(...slices.map(({ fromMm, toMm }) => x(toMm) - x(fromMm)));
  const every = Math.max(1, Math.ceil(NARROW_MM / narrowest));
  return slices.flatMap(({ middleMm, peakCentreC }, i): Mark[] => {
    if (i % every !== 0) return [];
    const text = (words: string, y: number, bold: boolean): Mark => ({
      kind: 'text',
      at: [x(middleMm), y],
      text: words,
      sizePt: TEXT_PT,
      anchor: 'middle',
      bold,
      tone: 1,
    });
    return [
      text(String(i + 1), bottomY + 4.2, true),
      text(temperatureText(peakCentreC, units).replace(/ °[CF]$/, '°'), bottomY + 8.2, false),
    ];
  });
}

/** A loop of twine: bulging lines, so that a tie is not taken for a cut or a pin. */
function tie(x: number, axisY: number, half: number): Mark[] {
  const reach = half + TIE_BEYOND_MM;
  const points = Array.from({ length: 9 }, (_, i): PointMm => {
    const up = i / 4 - 1;
    return [x + TIE_BULGE_MM * (1 - up * up), axisY + up * reach];
  });
  return [
    { kind: 'line', points, widthMm: 0.9, tone: 0 },
    { kind: 'line', points, widthMm: 0.35, tone: 1 },
  ];
}

const KEY_MM = 27; // of the key to lines, its words at their smallest on the smallest drawing
const KEY_BASELINE_MM = 2.4;
const SAMPLE_MM = 2.6; // height of a line shown in the key

/** What the lines across the roast are. */
function lineKey(left: number, tied: boolean): Mark[] {
  const top = KEY_BASELINE_MM - SAMPLE_MM + 0.3;
  const word = (text: string, x: number): Mark => ({
    kind: 'text',
    at: [x, KEY_BASELINE_MM],
    text,
    sizePt: TEXT_PT,
    anchor: 'start',
    bold: false,
    tone: 1,
  });
  const cut: Mark = {
    kind: 'line',
    points: [
      [left + 1, top],
      [left + 1, top + SAMPLE_MM],
    ],
    ...CUT,
  };
  if (!tied) return [cut, word('cut', left + 2.6)];
  const middle = top + SAMPLE_MM / 2;
  return [
    cut,
    word('cut', left + 2.6),
    ...tie(left + 12, middle, SAMPLE_MM / 2 - TIE_BEYOND_MM),
    word('twine', left + 15),
  ];
}

/** A pin from above, with its bulb on the axis. */
function thermometer(x: number, axisY: number, half: number): Mark[] {
  const top = axisY - half;
  const tip = axisY - BULB_UP_MM;
  const bulb = Array.from({ length: 12 }, (_, i): PointMm => {
    const angle = (Math.PI * i) / 6;
    return [x + BULB_MM * Math.cos(angle), tip + BULB_MM * Math.sin(angle)];
  });
  const points: PointMm[] = [
    [x, top - 3],
    [x, tip],
  ];
  return [
    { kind: 'line', points, widthMm: 1.7, tone: 0 },
    { kind: 'line', points, widthMm: 0.8, tone: 1 },
    { kind: 'area', rings: [bulb], tone: 1 },
    {
      kind: 'text',
      at: [x, top - 3.8],
      text: 'thermometer, tip at the centre',
      sizePt: TEXT_PT,
      anchor: 'middle',
      bold: false,
      tone: 1,
    },
  ];
}

function altText({ slices }: Plan, units: UnitSystem, lengthMm: number): string {
  const list = slices
    .map(({ band, peakCentreC }, i) => `${i + 1} ${band}, ${temperatureText(peakCentreC, units)}`)
    .join('; ');
  return `The roast from the side, ${lengthText(lengthMm, units)} long, thick end left, cut into ${slices.length} slices: ${list}.`;
}
