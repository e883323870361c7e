import { CUTS } from '../shape/index.js';
import type { Missing } from './cuttingList.js';
import { type Demand, demandsOf, type Window, windowsOf } from './demand.js';
import { type Muscle, muscleOf, PARTS, STOCK_KG, slabKg } from './muscle.js';
import { CUT_KINDS, type CutOrder } from './order.js';
import { type ClassName, classOf, roomsOf } from './rooms.js';

const STEP_KG = 0.05; // weights that are named
const [USUAL_LOW_KG, USUAL_HIGH_KG] = CUTS.whole.usualKg;
const USUAL_KG = (USUAL_LOW_KG + USUAL_HIGH_KG) / 2;

/** One piece that waits for a tenderloin; tips can be taken in any portions. */
interface Waiting {
  readonly order: number;
  readonly demand: Demand;
}

/** What would have to be at hand for orders that could not be served. */
export function missingFor(
  orders: readonly CutOrder[],
  unserved: readonly number[],
  tolerance: number,
  densityKgPerM3: number,
): Missing {
  const muscleAt = remembered((massKg: number) => muscleOf(massKg, densityKgPerM3));
  const waiting = unserved.flatMap((order): Waiting[] => {
    const [demand] = demandsOf([orders[order]]);
    return Array.from({ length: orders[order].pieces }, () => ({ order, demand }));
  });
  const leastFor = (pieces: readonly Waiting[], mostKg: number): number | undefined => {
    const steps = (kg: number): number => Math.round(kg / STEP_KG);
    let low = steps(USUAL_LOW_KG);
    let high = steps(mostKg);
    if (!fits(pieces, muscleAt(high * STEP_KG))) return undefined;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (fits(pieces, muscleAt(middle * STEP_KG))) high = middle;
      else low = middle + 1;
    }
    return Number((low * STEP_KG).toFixed(2));
  };
  const wholes = waiting.filter(({ demand }) => demand.kind === 'whole');
  const tips = waiting.filter(({ demand }) => demand.kind === 'tips');
  const cut = waiting.filter(({ demand }) => demand.kind !== 'whole' && demand.kind !== 'tips');
  const impossible = [
    ...new Set(cut.filter((one) => leastFor([one], STOCK_KG[1]) === undefined).map((w) => w.order)),
  ];

  const bins: { pieces: Waiting[]; leastKg: number }[] = [];
  const mostOf = (one: Waiting): number =>
    one.demand.massKg ??
    slabKg(
      muscleAt(USUAL_KG),
      PARTS.centre.from * muscleAt(USUAL_KG).lengthMm,
      one.demand.thicknessMm ?? 0,
    );
  for (const one of cut.toSorted((a, b) => mostOf(b) - mostOf(a))) {
    if (impossible.includes(one.order)) continue;
    const placed = bins.some((bin) => {
      const leastKg = leastFor([...bin.pieces, one], USUAL_HIGH_KG);
      if (leastKg === undefined) return false;
      bin.pieces.push(one);
      bin.leastKg = leastKg;
      return true;
    });
    if (!placed) {
      bins.push({ pieces: [one], leastKg: leastFor([one], STOCK_KG[1]) ?? STOCK_KG[1] });
    }
  }
  let tipsKg = tips.reduce((sum, { demand }) => sum + (demand.massKg ?? 0), 0);
  for (const bin of bins) {
    tipsKg -= bin.leastKg - bin.pieces.reduce((sum, one) => sum + mostOf(one), 0);
  }
  while (tipsKg > 0) {
    const leastKg = Math.min(USUAL_HIGH_KG, Math.max(USUAL_LOW_KG, up(tipsKg)));
    bins.push({ pieces: [], leastKg });
    tipsKg -= leastKg;
  }
  return {
    orders: unserved,
    byKind: CUT_KINDS.flatMap((kind) => {
      const these = waiting.filter(({ demand }) => demand.kind === kind);
      if (these.length === 0) return [];
      const massKg = these.reduce(
        (sum, one) => sum + (kind === 'whole' ? (one.demand.massKg ?? USUAL_KG) : mostOf(one)),
        0,
      );
      return [{ kind, pieces: these.length, massKg }];
    }),
    tenderloins: [
      ...wholes.map(({ demand: { massKg } }) =>
        massKg === undefined
          ? { leastKg: USUAL_LOW_KG }
          : { leastKg: massKg * (1 - 2 * tolerance), mostKg: massKg * (1 + 2 * tolerance) },
      ),
      ...bins.map(({ leastKg }) => ({ leastKg })),
    ].sort((a, b) => b.leastKg - a.leastKg),
    impossible,
  };
}

const up = (kg: number): number => Number((Math.ceil(kg / STEP_KG - 1e-9) * STEP_KG).toFixed(2));

function remembered<T>(make: (key: number) => T): (key: number) => T {
  const known = new Map<number, T>();
  return (key) => {
    const found = known.get(key) ?? make(key);
    known.set(key, found);
    return found;
  };
}

/** Whether pieces fit into one muscle at their full weights, each in its widest window. */
function fits(pieces: readonly Waiting[], muscle: Muscle): boolean {
  const taken = new Map<ClassName, number>();
  const used = new Map<ClassName, Window>();
  const ends = { butt: 0, tail: 0 };
  for (const { demand } of pieces) {
    const { kind, massKg = 0 } = demand;
    let name: ClassName;
    let kg = massKg;
    if (kind === 'butt' || kind === 'tail') {
      ends[kind]++;
      name = kind;
    } else {
      const [window] = windowsOf(demand, muscle);
      if (window === undefined) return false;
      name = classOf(window);
      used.set(name, window);
      kg = window.massKg;
    }
    taken.set(name, (taken.get(name) ?? 0) + kg);
  }
  if (ends.butt > 1 || ends.tail > 1) return false;
  return roomsOf(muscle, [...used.values()]).every(
    ({ classes, roomKg }) =>
      classes.reduce((sum, name) => sum + (taken.get(name) ?? 0), 0) <= roomKg + 1e-9,
  );
}
