import {
  type PlanRequest,
  type Roast,
  rest,
  roastIn,
  roundRoast,
  searInOven,
  searInPan,
  temper,
  tenderloin,
  waterBath,
} from '@roastsim/core';

/** One cook whose plan is known as exactly as the equations allow. */
export interface PlanCase {
  readonly id: string;
  /** What is cooked, and how, in words. */
  readonly words: string;
  readonly roast: Roast;
  readonly request: PlanRequest;
}

const UNTIL_PULLED = { minutes: 0 } as const; // the pull takes its place
const oven = (ovenC: number, more: { fan?: boolean; start?: 'cold' } = {}) =>
  roastIn({ ovenC, until: UNTIL_PULLED, ...more });
const bath = (bathC: number) => waterBath({ bathC, until: UNTIL_PULLED });
const HALF_HOUR = [temper({ minutes: 30 })] as const;
const TWENTY = [rest({ minutes: 20 })] as const;

const of = (
  id: string,
  words: string,
  roast: Roast,
  request: Pick<PlanRequest, 'heat'> & Partial<PlanRequest>,
): PlanCase => ({ id, words, roast, request: { before: HALF_HOUR, after: TWENTY, ...request } });

const whole = tenderloin({ massKg: 2.2 });
const centre = tenderloin({ massKg: 1.13, cut: 'centre' });

/** Thirty cooks: every cut and kind of stage, from a 93 °C oven to one at 300 °C. Half an hour out, 20 min of rest unless said. */
export const PLAN_CASES: readonly PlanCase[] = [
  of('whole', 'whole 2.2 kg, 230 °C', whole, { heat: oven(230) }),
  of('light', 'whole 1.5 kg, 200 °C', tenderloin({ massKg: 1.5 }), { heat: oven(200) }),
  of('heavy', 'whole 3.2 kg, 180 °C', tenderloin({ massKg: 3.2 }), { heat: oven(180) }),
  of(
    'unfolded',
    'whole 2.2 kg, neither folded nor tied, 180 °C',
    tenderloin({ massKg: 2.2, folded: false, tied: false }),
    { heat: oven(180) },
  ),
  of('fan', 'whole 2.2 kg, fan 200 °C', whole, { heat: oven(200, { fan: true }) }),
  of('cold-oven', 'whole 2.2 kg, oven cold, 220 °C', whole, {
    heat: oven(220, { start: 'cold' }),
  }),
  of('thick-rare', 'whole 2.2 kg, 218 °C, thickest slice rare', whole, {
    heat: oven(218.3),
    aim: { doneness: 'rare', at: 'thick' },
  }),
  of('thin-medium', 'whole 2.2 kg, 190 °C, thinnest slice medium', whole, {
    heat: oven(190),
    aim: { doneness: 'medium', at: 'thin' },
  }),
  of('pan-first', 'whole 2.2 kg, pan, then 150 °C', whole, {
    before: [...HALF_HOUR, searInPan()],
    heat: oven(150),
  }),
  of('pan-last', 'whole 2.2 kg, 120 °C, then pan', whole, {
    heat: oven(120),
    after: [searInPan({ secondsPerFace: 60 }), ...TWENTY],
  }),
  of('oven-sear', 'whole 2.2 kg, 8 min at 250 °C, then 160 °C', whole, {
    before: [...HALF_HOUR, searInOven()],
    heat: oven(160),
  }),
  of('early-pull', 'whole 2.2 kg, 230 °C, pulled at 34 °C', whole, {
    heat: oven(230),
    pull: { centreC: 34 },
  }),
  of('timed', 'whole 2.2 kg, 45 min at 230 °C', whole, {
    heat: oven(230),
    pull: { minutes: 45 },
  }),
  of('open-rest', 'whole 2.2 kg, untempered, 250 °C, 40 min open rest', whole, {
    before: [],
    heat: oven(250),
    after: [rest({ minutes: 40, tented: false })],
  }),
  of('at-risk', 'whole 2.2 kg, 200 °C, eaters at risk', whole, {
    heat: oven(200),
    atRisk: true,
    pull: { centreC: 62.8 },
  }),
  of('whole-bath', 'whole 2.2 kg, bath at 60 °C to 57 °C', whole, {
    before: [],
    heat: bath(60),
    aim: { doneness: 57 },
  }),
  of('centre', 'centre 1.13 kg, 218 °C', centre, { heat: oven(218.3) }),
  of('centre-light', 'centre 0.5 kg, 240 °C', tenderloin({ massKg: 0.5, cut: 'centre' }), {
    heat: oven(240),
  }),
  of('centre-fan', 'centre 1.13 kg, fan 160 °C, medium', centre, {
    heat: oven(160, { fan: true }),
    aim: { doneness: 'medium' },
  }),
  of('centre-hottest', 'centre 1.13 kg, 300 °C', centre, { heat: oven(300) }),
  of('centre-low', 'centre 1.13 kg, pan, then fan 93 °C', centre, {
    before: [...HALF_HOUR, searInPan()],
    heat: oven(93, { fan: true }),
  }),
  of('centre-well', 'centre 1.13 kg, 218 °C to 72 °C', centre, {
    heat: oven(218.3),
    aim: { doneness: 72 },
  }),
  of('centre-bath', 'centre 1.13 kg, bath at 57 °C, then pan', centre, {
    before: [],
    heat: bath(57),
    after: [searInPan({ secondsPerFace: 45 }), rest({ minutes: 10 })],
  }),
  of(
    'not-intact',
    'centre 1.13 kg, not intact, 180 °C',
    tenderloin({ massKg: 1.13, cut: 'centre', intact: false }),
    { heat: oven(180), pull: { centreC: 62.8 } },
  ),
  of('butt', 'butt 0.9 kg, fan 150 °C', tenderloin({ massKg: 0.9, cut: 'butt' }), {
    heat: oven(150, { fan: true }),
  }),
  of('butt-hot', 'butt 1.3 kg, 230 °C', tenderloin({ massKg: 1.3, cut: 'butt' }), {
    heat: oven(230),
  }),
  of('tail', 'tail 0.5 kg, 230 °C', tenderloin({ massKg: 0.5, cut: 'tail' }), {
    heat: oven(230),
  }),
  of(
    'by-the-tape',
    'whole 2 kg, 24 and 26 cm round, 210 °C',
    tenderloin({
      massKg: 2,
      girths: [
        { sizeMm: 240, atMm: 50 },
        { sizeMm: 260, atMm: 200 },
      ],
    }),
    { heat: oven(210) },
  ),
  of(
    'cylinder',
    'cylinder of 88 mm, 1.13 kg, 163 °C',
    roundRoast({ massKg: 1.13, diameters: [{ sizeMm: 88 }] }),
    { heat: oven(162.8) },
  ),
  of(
    'spindle',
    'spindle of 50 mm, 0.28 kg, 218 °C',
    roundRoast({
      massKg: 0.28,
      lengthMm: 200,
      diameters: [
        { sizeMm: 31, atMm: 0 },
        { sizeMm: 50, atMm: 100 },
        { sizeMm: 31, atMm: 200 },
      ],
    }),
    { heat: oven(218.3) },
  ),
];
