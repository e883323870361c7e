import { CUTS } from '../shape/index.js';
import type { Missing } from './cuttingList.js';
import { type Demand, demandsOf, type Window, windowsOf } from './demand.js';
import { type Muscle, muscleOf, STOCK_KG } from './muscle.js';
import { CUT_KINDS, type CutOrder } from './order.js';
import { type ClassName, classOf, roomsOf } from './rooms.js';

const STEP_KG = 0.05; // weights that are named
const [USUAL_LOW_KG, USUAL_HIGH_KG] = CUTS.whole.usualKg;
const USUAL_KG = (USUAL_LOW_KG + USUAL_HIGH_KG) / 2;
const HAIR_KG = 1e-9;

/** One piece that waits for a tenderloin. */
interface Waiting {
  readonly order: number;
  readonly demand: Demand;
}

/** A tenderloin that would do for some pieces, and the mass they take of it. */
interface Bin {
  readonly pieces: readonly Waiting[];
  readonly leastKg: number;
  readonly takenKg: number;
}

/**
 * What would have to be at hand for orders that could not be served: new tenderloins filled first fit, the heaviest pieces first, each
 * then as small as its pieces allow. A larger one always does too, since all that limits a piece grows with the muscle.
 */
export function missingFor(
  orders: readonly CutOrder[],
  unserved: readonly number[],
  tolerance: number,
  densityKgPerM3: number,
): Missing {
  const waiting = unserved.flatMap((order): Waiting[] => {
    const [demand] = demandsOf([orders[order]]);
    return Array.from({ length: orders[order].pieces }, () => ({ order, demand }));
  });
  const of = (kind: Demand['kind']): Waiting[] => waiting.filter((w) => w.demand.kind === kind);
  const fitter = new Fitter(densityKgPerM3);
  const bins: Bin[] = [];
  const impossible = new Set<number>();
  const cut = (['centre', 'butt', 'tail', 'steak'] as const).flatMap(of);
  for (const one of cut.toSorted((a, b) => fitter.usualKg(b) - fitter.usualKg(a))) {
    const alone = fitter.binFor([one], STOCK_KG[1]);
    if (alone === undefined) {
      impossible.add(one.order);
      continue;
    }
    let into = bins.length;
    let filled = alone;
    for (const [b, bin] of bins.entries()) {
      if (bin.takenKg + fitter.usualKg(one) / 2 > USUAL_HIGH_KG) continue;
      const more = fitter.binFor([...bin.pieces, one], USUAL_HIGH_KG);
      if (more === undefined) continue;
      into = b;
      filled = more;
      break;
    }
    bins[into] = filled;
  }
  let tipsKg = of('tips').reduce((sum, { demand }) => sum + (demand.massKg ?? 0), 0);
  for (const { leastKg, takenKg } of bins) tipsKg -= leastKg - takenKg;
  while (tipsKg > HAIR_KG) {
    const leastKg = Math.min(USUAL_HIGH_KG, Math.max(USUAL_LOW_KG, rounded(tipsKg + STEP_KG / 2)));
    bins.push({ pieces: [], leastKg, takenKg: 0 });
    tipsKg -= leastKg;
  }
  return {
    orders: unserved,
    byKind: CUT_KINDS.flatMap((kind) => {
      const these = of(kind);
      const massKg = these.reduce((sum, one) => sum + fitter.usualKg(one), 0);
      return these.length === 0 ? [] : [{ kind, pieces: these.length, massKg }];
    }),
    tenderloins: [
      ...of('whole').map(({ demand: { massKg } }) =>
        massKg === undefined
          ? { leastKg: USUAL_LOW_KG }
          : { leastKg: massKg * (1 - 2 * tolerance), mostKg: massKg * (1 + 2 * tolerance) },
      ),
      ...bins.map(({ leastKg }) => ({ leastKg })),
    ].sort((a, b) => b.leastKg - a.leastKg),
    impossible: [...impossible],
  };
}

/** To the next weight that is named. */
const rounded = (kg: number): number => Number((Math.round(kg / STEP_KG) * STEP_KG).toFixed(2));

/** Knows what fits into a muscle of any weight, and remembers what it has found out. */
class Fitter {
  private readonly muscles = new Map<number, Muscle>();
  private readonly windows = new Map<string, readonly Window[]>();
  private readonly densityKgPerM3: number;

  constructor(densityKgPerM3: number) {
    this.densityKgPerM3 = densityKgPerM3;
  }

  /** What a piece weighs, or would out of a tenderloin of the usual weight [kg]. */
  usualKg({ demand }: Waiting): number {
    if (demand.massKg !== undefined) return demand.massKg;
    return demand.kind === 'whole' ? USUAL_KG : (this.windowsAt(demand, USUAL_KG)[0]?.massKg ?? 0);
  }

  /** The smallest tenderloin, from the usual weights up, that holds the pieces. */
  binFor(pieces: readonly Waiting[], mostKg: number): Bin | undefined {
    let low = Math.round(USUAL_LOW_KG / STEP_KG);
    let high = Math.round(mostKg / STEP_KG);
    let best = this.taken(pieces, high * STEP_KG);
    if (best === undefined) return undefined;
    while (low < high) {
      const middle = (low + high) >> 1;
      const takenKg = this.taken(pieces, middle * STEP_KG);
      if (takenKg === undefined) low = middle + 1;
      else {
        high = middle;
        best = takenKg;
      }
    }
    return { pieces, leastKg: rounded(low * STEP_KG), takenKg: best };
  }

  /** Mass that pieces take of a muscle at their full weights, each in its widest window [kg]; nothing when they do not fit. */
  private taken(pieces: readonly Waiting[], massKg: number): number | undefined {
    const taken = new Map<ClassName, number>();
    const used = new Map<ClassName, Window>();
    let sum = 0;
    for (const { demand } of pieces) {
      const { kind } = demand;
      const isEnd = kind === 'butt' || kind === 'tail';
      const window = isEnd ? undefined : this.windowsAt(demand, massKg)[0];
      if (isEnd ? taken.has(kind) : window === undefined) return undefined;
      const name = window === undefined ? (kind as 'butt' | 'tail') : classOf(window);
      const kg = window?.massKg ?? demand.massKg ?? 0;
      if (window !== undefined) used.set(name, window);
      taken.set(name, (taken.get(name) ?? 0) + kg);
      sum += kg;
    }
    const fits = roomsOf(this.muscleOf(massKg), [...used.values()]).every(
      ({ classes, roomKg }) =>
        classes.reduce((kg, name) => kg + (taken.get(name) ?? 0), 0) <= roomKg + HAIR_KG,
    );
    return fits ? sum : undefined;
  }

  private muscleOf(massKg: number): Muscle {
    const key = Math.round(massKg / STEP_KG);
    const known = this.muscles.get(key) ?? muscleOf(massKg, this.densityKgPerM3);
    this.muscles.set(key, known);
    return known;
  }

  private windowsAt(demand: Demand, massKg: number): readonly Window[] {
    const { kind, massKg: pieceKg, thicknessMm } = demand;
    const key = `${kind} ${pieceKg} ${thicknessMm} ${Math.round(massKg / STEP_KG)}`;
    const known = this.windows.get(key) ?? windowsOf(demand, this.muscleOf(massKg));
    this.windows.set(key, known);
    return known;
  }
}
