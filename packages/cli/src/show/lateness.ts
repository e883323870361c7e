import {
  aimedSlice,
  durationText,
  offerQuicker,
  type Plan,
  type PlanRequest,
  type QuickerPlan,
  servingMinutes,
  type Timetable,
  temperatureText,
  type UnitSystem,
} from '@roastsim/core';
import type { ServingClock } from './servingClock.js';
import { stageLineText } from './stageLineText.js';

/** A cook who is late, and what helps. */
export interface Lateness {
  /** Since the first step should have been done [min]. */
  readonly byMinutes: number;
  /** Of them, what no step's slack takes up: serving would be so much later if the plan were begun now [min]. */
  readonly servingLateMinutes: number;
  /** The quickest last; empty when the slack is enough or nothing is quicker. */
  readonly quicker: readonly LateOffer[];
}

/** A quicker way, begun now. */
export interface LateOffer extends QuickerPlan {
  /** Serving is so much later than wished [min]; 0 when it is in time. */
  readonly lateMinutes: number;
  /** Since the refrigerator in the plan that was asked for: where its clock shows when the plates go out [min]. */
  readonly servedAtMinutes: number;
  /** The cook was asked for by a stage line: so is this. */
  readonly asLine: boolean;
}

const SCARCELY_MINUTES = 0.5; // less is no lateness: a clock shows whole minutes

/**
 * How late a cook is who has not begun yet; nothing when there is still time.
 *
 * @param now - the present
 * @param asLine - the cook was asked for by a stage line
 */
export function latenessOf(
  plan: Plan,
  request: PlanRequest,
  { steps, lengthMinutes }: Timetable,
  clock: ServingClock,
  now: Date,
  asLine = false,
): Lateness | undefined {
  const servedAt = servingMinutes(plan);
  const availableMinutes = (clock.momentOf(servedAt).getTime() - now.getTime()) / 60_000;
  const byMinutes = lengthMinutes - availableMinutes;
  if (byMinutes < SCARCELY_MINUTES) return undefined;
  // the cook begins now; a step that could slip further than it does is no loss
  const servingLateMinutes = Math.max(
    0,
    ...steps.map(
      ({ beforeServingMinutes, toleranceMinutes }) =>
        beforeServingMinutes - availableMinutes - toleranceMinutes,
    ),
  );
  if (servingLateMinutes === 0) return { byMinutes, servingLateMinutes, quicker: [] };
  const { gentlest, quickest } = offerQuicker(plan, request, availableMinutes);
  const quicker = [gentlest, quickest].filter((offer) => offer !== undefined);
  return {
    byMinutes,
    servingLateMinutes,
    quicker: quicker.map((offer) => ({
      ...offer,
      lateMinutes: Math.max(0, offer.lengthMinutes - availableMinutes),
      servedAtMinutes: servedAt - availableMinutes + offer.lengthMinutes,
      asLine,
    })),
  };
}

/** What to tell a late cook, a paragraph each. */
export function sayLateness(
  plan: Plan,
  { byMinutes, servingLateMinutes, quicker }: Lateness,
  clock: ServingClock,
  units: UnitSystem,
): string[] {
  const servedAt = servingMinutes(plan);
  const wished = clock.at(servedAt);
  const start = `LATE: to serve at ${wished} this plan began ${durationText(byMinutes)} ago.`;
  if (servingLateMinutes === 0) {
    return [
      `${start} The steps have that much to give: begin now, everything that is past at once, and go by the pull.`,
    ];
  }
  // from now on nothing gets shorter than the plan itself
  const afterAll = clock.at(servedAt + byMinutes);
  const unchanged = `Begun now and left as it is, the plates go out at ${afterAll}.`;
  if (quicker.length === 0) {
    return [
      `${start} ${unchanged} No quicker way meets the aim and keeps the limits of safety: tell the guests.`,
    ];
  }
  return [
    `${start} ${unchanged} If the roast is still in the refrigerator:`,
    ...quicker.map((offer, i) => {
      const name =
        i === quicker.length - 1 ? 'Quickest, no less safe' : 'In time with the least change';
      return `${name}: ${sayOffer(plan, offer, clock, units)}`;
    }),
  ];
}

function sayOffer(asked: Plan, offer: LateOffer, clock: ServingClock, units: UnitSystem): string {
  const { plan, lateMinutes, servedAtMinutes } = offer;
  const temp = (c: number): string => temperatureText(c, units);
  const late =
    lateMinutes < SCARCELY_MINUTES ? 'in time' : `${durationText(Math.max(1, lateMinutes))} late`;
  return (
    `${changesOf(offer, units).join(', ')}. Pull at ${temp(plan.pull.centreC)} after ` +
    `${durationText(plan.pull.minutes)}, peak ${temp(plan.peak.centreC)}; plates at ` +
    `${clock.at(servedAtMinutes)}, ${late}. ${sayCost(asked, plan, units)} ` +
    `For its timetable: ${optionsOf(offer, units)}`
  );
}

/** What the quicker way does to the meat. */
function sayCost(asked: Plan, plan: Plan, units: UnitSystem): string {
  if (plan.aim.at === 'coldest') {
    const peak = ({ peak: { centreC } }: Plan): string => temperatureText(centreC, units);
    return `The coldest spot climbs to ${peak(plan)} instead of ${peak(asked)}.`;
  }
  const [slice, before] = [aimedSlice(plan), aimedSlice(asked)];
  const rim = (mm: number): string =>
    units === 'us' ? `${(mm / 25.4).toFixed(1)} in` : `${Math.round(mm)} mm`;
  const percent = (share: number): string => `${Math.round(100 * share)} %`;
  return (
    `Cost: ${percent(slice.evenness)} of the slice's face is ${slice.band} instead of ` +
    `${percent(before.evenness)}, the outer ${rim(slice.rimMm)} done through instead of ${rim(before.rimMm)}.`
  );
}

/** What is done otherwise, in words. */
function changesOf({ ways, request }: QuickerPlan, units: UnitSystem): string[] {
  const { heat } = request;
  const { temperMinutes, restMinutes } = timesOf(request);
  const oven = heat.kind === 'roast' ? `oven at ${temperatureText(heat.ovenC, units)}` : 'bath';
  const words: { readonly [K in QuickerPlan['ways'][number]]: string } = {
    'shorter-temper':
      temperMinutes === 0
        ? 'no time on the counter'
        : `on the counter only while the ${heat.kind === 'roast' ? 'oven' : 'bath'} heats (${durationText(temperMinutes)})`,
    'sear-first': 'sear in a pan first',
    'hotter-oven': oven,
    'oven-instead': `${oven} instead of the bath`,
    'shorter-rest': `rest ${durationText(restMinutes)}`,
    'longer-rest': `rest ${durationText(restMinutes)}`,
  };
  return ways.map((way) => words[way]);
}

/** Minutes on the counter before the heat, and of the rest. */
export function timesOf({ before, after }: PlanRequest): {
  readonly temperMinutes: number;
  readonly restMinutes: number;
} {
  const [first] = before;
  const last = after[after.length - 1];
  const minutes = (until: { readonly minutes: number } | object): number =>
    'minutes' in until ? until.minutes : 0;
  return {
    temperMinutes: first?.kind === 'temper' ? minutes(first.until) : 0,
    restMinutes: last?.kind === 'rest' ? minutes(last.until) : 0,
  };
}

/** The options that plan the quicker way. */
export function optionsOf({ ways, request, plan, asLine }: LateOffer, units: UnitSystem): string {
  const { before, heat, after } = request;
  if (asLine) {
    const style = { units, probe: plan.aim.point, pullSearched: request.pull === undefined };
    return `--stages "${stageLineText([...before, heat, ...after], style)}"`;
  }
  const { temperMinutes, restMinutes } = timesOf(request);
  const has = (...any: readonly QuickerPlan['ways'][number][]): boolean =>
    any.some((way) => ways.includes(way));
  const oven = heat.kind === 'roast' ? temperatureText(heat.ovenC, units).replace(' °', '') : '';
  return [
    ...(has('oven-instead') ? [`--oven ${oven} in place of --bath`] : []),
    ...(has('hotter-oven') ? [`--oven ${oven}`] : []),
    ...(has('shorter-temper') ? [`--temper ${Math.round(temperMinutes)}min`] : []),
    ...(has('sear-first') ? ['--sear'] : []),
    ...(has('shorter-rest', 'longer-rest') ? [`--rest ${Math.round(restMinutes)}min`] : []),
  ].join(' ');
}
