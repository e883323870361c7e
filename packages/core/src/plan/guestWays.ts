import {
  type Bath,
  isHeat,
  type OvenRoast,
  type OvenSear,
  type PanSear,
  type Rest,
  type Roast,
  rest,
  type Stage,
  searInPan,
} from '../cook/index.js';

/** What a search for guests may change beside the pull. */
export type Freedom = 'oven' | 'sear' | 'fold' | 'carving';

/** Every {@link Freedom}. */
export const FREEDOMS: readonly Freedom[] = ['oven', 'sear', 'fold', 'carving'];

/** Carving before the rest is over: one slice after the other from one end, while the others go on. */
export interface Carving {
  /** First slice, so long into the rest [min]. */
  readonly startMinutes: number;
  /** Which end is carved first. */
  readonly from: 'first-end' | 'last-end';
}

/** One way to cook a roast, but for the pull. */
export interface Way {
  readonly roast: Roast;
  readonly before: readonly Stage[];
  readonly heat: OvenRoast | Bath;
  readonly after: readonly Stage[];
  readonly sear: 'none' | 'first' | 'last';
  /** Nothing when all are carved after the rest. */
  readonly carving?: Carving;
  /** What follows the pull when nothing is carved before the rest is over. */
  readonly uncarved: readonly Stage[];
  /** In what it differs from what was asked for. */
  readonly changed: readonly Freedom[];
}

/** Ways that are one and the same up to the pull. */
export type WaysOfOneOven = readonly [Way, ...Way[]];

/** Minutes from one carved slice to the next. Common practice, no source. */
export const CARVE_MINUTES_PER_SLICE = 1;

const OVENS_C = [120, 150, 180, 210, 240] as const; // what a household oven is set to
const CARVE_STARTS_MINUTES = [5, 10] as const; // in good time after the 3 minutes of rest that the guidance asks for

/** What the ways start from. */
export interface WayRequest {
  readonly before: readonly Stage[];
  readonly heat: OvenRoast | Bath;
  readonly after: readonly Stage[];
  /** The same meat with its tail the other way: unfolded when the roast is folded. Needed to vary the fold. */
  readonly otherFold?: Roast;
}

const isSear = (stage: Stage): stage is PanSear | OvenSear =>
  stage.kind === 'pan-sear' || stage.kind === 'oven-sear';

/** The way asked for and every way that some freedoms lead to, those together that share an oven. */
export function waysOf(
  roast: Roast,
  request: WayRequest,
  freedoms: readonly Freedom[],
  slices: number,
): WaysOfOneOven[] {
  const { before, heat, after, otherFold } = request;
  const firstSear = before.find(isSear);
  const lastSear = after.find(isSear);
  const asked = lastSear !== undefined ? 'last' : firstSear !== undefined ? 'first' : 'none';
  const searing = lastSear ?? firstSear ?? searInPan();
  const free = (freedom: Freedom): boolean => freedoms.includes(freedom);

  const roasts = free('fold') && otherFold !== undefined ? [roast, otherFold] : [roast];
  const heats: (OvenRoast | Bath)[] = [heat];
  if (free('oven') && heat.kind === 'roast') {
    for (const ovenC of OVENS_C) if (ovenC !== heat.ovenC) heats.push({ ...heat, ovenC });
  }
  // a sear between two stays in the oven is part of the way asked for
  const movable = free('sear') && !before.some(isHeat);
  const sears: readonly Way['sear'][] = movable
    ? [asked, ...(['none', 'first', 'last'] as const).filter((sear) => sear !== asked)]
    : [asked];
  const carvingsOf = (uncarved: readonly Stage[]): (Carving | undefined)[] => {
    const restMinutes = free('carving') ? carvableMinutes(uncarved) : 0;
    const starts = CARVE_STARTS_MINUTES.filter((start) => start < restMinutes);
    return [
      undefined,
      ...starts.flatMap((startMinutes): Carving[] => [
        { startMinutes, from: 'first-end' },
        { startMinutes, from: 'last-end' },
      ]),
    ];
  };

  const without = (stages: readonly Stage[]): Stage[] => stages.filter((stage) => !isSear(stage));
  const beforeOf = (sear: Way['sear']): readonly Stage[] =>
    sear === asked ? before : sear === 'first' ? [...without(before), searing] : without(before);
  const afterOf = (sear: Way['sear']): readonly Stage[] =>
    sear === asked ? after : sear === 'last' ? [searing, ...without(after)] : without(after);

  const searedFirst = sears.filter((sear) => sear === 'first');
  const notFirst = sears.filter((sear) => sear !== 'first');
  const ovens: WaysOfOneOven[] = [];
  for (const body of roasts) {
    for (const oven of heats) {
      for (const alike of [notFirst, searedFirst]) {
        const ways = alike.flatMap((sear): Way[] => {
          const uncarved = afterOf(sear);
          return carvingsOf(uncarved).map((carving) => ({
            roast: body,
            before: beforeOf(sear),
            heat: oven,
            after: carvedDuring(uncarved, carving, slices),
            sear,
            ...(carving === undefined ? {} : { carving }),
            uncarved,
            changed: [
              ...(oven === heat ? [] : (['oven'] as const)),
              ...(sear === asked ? [] : (['sear'] as const)),
              ...(body === roast ? [] : (['fold'] as const)),
              ...(carving === undefined ? [] : (['carving'] as const)),
            ],
          }));
        });
        const [first, ...others] = ways;
        if (first !== undefined) ovens.push([first, ...others]);
      }
    }
  }
  return ovens;
}

const isRest = (stage: Stage): stage is Rest => stage.kind === 'rest';

/** Length of the rest that slices may be carved in [min]: the only one, with nothing to come after it; 0 where there is none such. */
function carvableMinutes(after: readonly Stage[]): number {
  const last = after.at(-1);
  const only = last !== undefined && isRest(last) && after.filter(isRest).length === 1;
  return only && 'minutes' in last.until ? last.until.minutes : 0;
}

/** The rest as it is when carving begins within it: covered until then, open while slice after slice is taken. */
function carvedDuring(
  after: readonly Stage[],
  carving: Carving | undefined,
  slices: number,
): Stage[] {
  if (carving === undefined) return [...after];
  return after.flatMap((stage): Stage[] =>
    isRest(stage)
      ? [
          { ...stage, until: { minutes: carving.startMinutes } },
          rest({ minutes: slices * CARVE_MINUTES_PER_SLICE, tented: false, roomC: stage.roomC }),
        ]
      : [stage],
  );
}

/**
 * When each slice is carved [min into the rest], or Infinity when the roast is carved after the cook.
 *
 * @example
 * carvedAtMinutes({ startMinutes: 5, from: 'first-end' }, 3) // => [5, 6, 7]
 */
export function carvedAtMinutes(carving: Carving | undefined, slices: number): number[] {
  return Array.from({ length: slices }, (_, i) => {
    if (carving === undefined) return Number.POSITIVE_INFINITY;
    const turn = carving.from === 'first-end' ? i : slices - 1 - i;
    return carving.startMinutes + turn * CARVE_MINUTES_PER_SLICE;
  });
}
