import type { Allotment } from './allotment.js';
import type { Demand, Window } from './demand.js';
import type { Muscle } from './muscle.js';
import { type ClassName, classOf, type Room, roomsOf } from './rooms.js';

/** A muscle being filled. */
interface Filling {
  whole?: number;
  butt?: number;
  tail?: number;
  lots: { demand: number; window: Window; pieces: number }[];
  taken: Map<ClassName, number>;
  tipsKg: number;
}

interface Site {
  readonly muscle: Muscle;
  readonly windows: readonly (readonly Window[])[];
  readonly rooms: readonly Room[];
}

const HAIR_KG = 1e-9;
/**
 * A feasible allotment by filling one muscle after the other, for the solver to begin with, and to fall back on where it gets no
 * time: orders in several sequences, the best of the outcomes.
 *
 * @param windows - by muscle and demand
 */
export function firstFit(
  demands: readonly Demand[],
  muscles: readonly Muscle[],
  windows: readonly (readonly (readonly Window[])[])[],
  tolerance: number,
): Allotment {
  const sites = muscles.map((muscle, j): Site => {
    const used = new Map(windows[j].flat().map((window) => [classOf(window), window]));
    return { muscle, windows: windows[j], rooms: roomsOf(muscle, [...used.values()]) };
  });
  const jobs = demands.flatMap((demand, index): Job[] =>
    demand.orders.map((order) => ({
      demand: index,
      kind: demand.kind,
      order: order.index,
      pieces: order.pieces,
      massKg: order.pieces * (demand.massKg ?? widestKg(index, windows)),
    })),
  );
  return SEQUENCES.map((before) => fill(demands, sites, tolerance, jobs.toSorted(before))).reduce(
    (best, next) => (countOf(next) > countOf(best) ? next : best),
  );
}

/** Mass of a slab in a muscle that has room for it [kg]. */
const widestKg = (demand: number, windows: readonly (readonly (readonly Window[])[])[]): number =>
  windows.find((each) => each[demand].length > 0)?.[demand][0].massKg ?? 0;

/** An order that waits. */
interface Job {
  readonly demand: number;
  readonly kind: Demand['kind'];
  readonly order: number;
  readonly pieces: number;
  /** Of all its pieces. */
  readonly massKg: number;
}

/** By kind in the order named, and within a kind by mass, up or down. */
const byKind =
  (kinds: readonly Demand['kind'][], direction: 1 | -1) =>
  (a: Job, b: Job): number =>
    kinds.indexOf(a.kind) - kinds.indexOf(b.kind) || direction * (a.massKg - b.massKg);

/** Where there is enough, what is hardest to place comes first; where there is not, what takes least. */
const SEQUENCES: readonly ((a: Job, b: Job) => number)[] = [
  byKind(['whole', 'centre', 'butt', 'tail', 'steak', 'tips'], -1),
  byKind(['whole', 'centre', 'butt', 'tail', 'steak', 'tips'], 1),
  byKind(['tail', 'butt', 'centre', 'steak', 'tips', 'whole'], 1),
  byKind(['tail', 'butt', 'steak', 'centre', 'tips', 'whole'], 1),
  (a, b) => a.massKg - b.massKg,
];

const countOf = ({ served }: Allotment): number => served.filter(Boolean).length;

function fill(
  demands: readonly Demand[],
  sites: readonly Site[],
  tolerance: number,
  jobs: readonly Job[],
): Allotment {
  let fillings: Filling[] = sites.map(() => ({ lots: [], taken: new Map(), tipsKg: 0 }));
  const served = new Array<boolean>(jobs.length).fill(false);
  for (const { demand, order, pieces } of jobs) {
    const trial = fillings.map((each) => ({
      ...each,
      lots: each.lots.map((lot) => ({ ...lot })),
      taken: new Map(each.taken),
    }));
    let placed = 0;
    while (placed < pieces && place(demand, demands[demand], trial, sites, tolerance)) placed++;
    if (placed < pieces) continue;
    fillings = trial;
    served[order] = true;
  }
  return {
    served,
    muscles: fillings.map(({ taken: _, lots, ...rest }) => ({
      ...rest,
      lots,
      shortKg: new Map(),
      keepKg: { butt: 0, centre: 0, tail: 0 },
    })),
  };
}

/** Finds a place for one piece: in a muscle that is cut already if there is room, else in the smallest uncut one. */
function place(
  index: number,
  demand: Demand,
  fillings: Filling[],
  sites: readonly Site[],
  tolerance: number,
): boolean {
  if (demand.kind === 'tips') return placeTips(demand, fillings, sites);
  const inTurn = fillings
    .map((filling, j) => ({ filling, site: sites[j] }))
    .filter(({ filling }) => filling.whole === undefined)
    .sort(
      (a, b) =>
        Number(isUncut(a.filling)) - Number(isUncut(b.filling)) ||
        a.site.muscle.massKg - b.site.muscle.massKg,
    );
  const { kind, massKg = 0 } = demand;
  if (kind === 'whole') {
    const off = (site: Site): number =>
      demand.massKg === undefined ? 0 : Math.abs(site.muscle.massKg - massKg);
    const [best] = inTurn
      .filter(({ filling, site }) => isUncut(filling) && isNear(site.muscle, demand, tolerance))
      // of like ones the last, since the first of them are opened first
      .sort((a, b) => off(a.site) - off(b.site) || sites.indexOf(b.site) - sites.indexOf(a.site));
    if (best === undefined) return false;
    best.filling.whole = index;
    return true;
  }
  for (const { filling, site } of inTurn) {
    if (kind === 'butt' || kind === 'tail') {
      if (filling[kind] !== undefined || !holds(filling, site, kind, massKg)) continue;
      filling[kind] = index;
      take(filling, kind, massKg);
      return true;
    }
    const j = sites.indexOf(site);
    const window = sites[j].windows[index].find((each) =>
      holds(filling, site, classOf(each), each.massKg),
    );
    if (window === undefined) continue;
    take(filling, classOf(window), window.massKg);
    const lot = filling.lots.find((each) => each.demand === index && each.window === window);
    if (lot === undefined) filling.lots.push({ demand: index, window, pieces: 1 });
    else lot.pieces++;
    return true;
  }
  return false;
}

/** Whether an uncut tenderloin may stand for an order of a whole one. */
export const isNear = ({ massKg }: Muscle, demand: Demand, tolerance: number): boolean =>
  demand.massKg === undefined ||
  Math.abs(massKg - demand.massKg) <= 2 * tolerance * demand.massKg + HAIR_KG;

const isUncut = ({ whole, butt, tail, lots, tipsKg }: Filling): boolean =>
  whole === undefined &&
  butt === undefined &&
  tail === undefined &&
  lots.length === 0 &&
  tipsKg === 0;

const takenKg = ({ taken }: Filling): number =>
  [...taken.values()].reduce((sum, kg) => sum + kg, 0);

const holds = (filling: Filling, site: Site, name: ClassName, massKg: number): boolean =>
  takenKg(filling) + filling.tipsKg + massKg <= site.muscle.massKg &&
  site.rooms.every(
    ({ classes, roomKg }) =>
      !classes.includes(name) ||
      classes.reduce((sum, each) => sum + (filling.taken.get(each) ?? 0), massKg) <= roomKg,
  );

function take(filling: Filling, name: ClassName, massKg: number): void {
  filling.taken.set(name, (filling.taken.get(name) ?? 0) + massKg);
}

/** Tips from what is left of cut muscles, then of uncut ones. */
function placeTips(
  { massKg = 0 }: Demand,
  fillings: readonly Filling[],
  sites: readonly Site[],
): boolean {
  let wantedKg = massKg;
  const inTurn = fillings
    .map((filling, j) => ({ filling, leftKg: sites[j].muscle.massKg - takenKg(filling) }))
    .filter(({ filling }) => filling.whole === undefined)
    .sort((a, b) => Number(isUncut(a.filling)) - Number(isUncut(b.filling)));
  for (const { filling, leftKg } of inTurn) {
    const fromHere = Math.min(wantedKg, leftKg - filling.tipsKg);
    filling.tipsKg += fromHere;
    wantedKg -= fromHere;
    if (wantedKg <= HAIR_KG) return true;
  }
  return false;
}
