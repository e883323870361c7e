import type { MuscleAllotment } from './allotment.js';
import type { CutPiece } from './cuttingList.js';
import type { Demand } from './demand.js';
import { type Muscle, massBefore, massBeforeShare, PARTS, placeOf } from './muscle.js';
import { LEAST_TO_SELL_KG, type Part } from './programme.js';
import { CENTRE_CLASS, type ClassName, classOf, inOrder } from './rooms.js';

/** A piece by the mass before its two ends [kg]. */
interface Placed {
  readonly use: CutPiece['use'];
  readonly kind: CutPiece['kind'];
  /** The demand it is for. */
  readonly demand?: number;
  fromKg: number;
  toKg: number;
}

/** A piece on the block, and the demand it is for. */
export type LaidPiece = Omit<CutPiece, 'order'> & { readonly demand?: number };

const HAIR_KG = 1e-6; // the accuracy the solver works to

/**
 * Places along the muscle: the butt roast first, then all pieces in the order of their windows, each as far to the butt end as it can
 * go, the tail roast last. Steaks by thickness weigh here what they weigh at their place, which is never more than was reckoned;
 * what that leaves goes to the roasts that are kept to be sold.
 */
export function layOut(
  allotment: MuscleAllotment,
  demands: readonly Demand[],
  muscle: Muscle,
): LaidPiece[] {
  const placed = ordered(allotment, demands, muscle);
  const spare = gapsOf(placed, muscle).reduce((sum, { fromKg, toKg }) => sum + toKg - fromKg, 0);
  growKept(placed, muscle, spare - allotment.tipsKg);
  const ends = gapsOf(placed, muscle).map((gap): Placed => ({ use: 'ends', kind: 'tips', ...gap }));
  return [...placed, ...ends]
    .sort((a, b) => a.fromKg - b.fromKg)
    .map(({ fromKg, toKg, use, kind, demand }) => ({
      use,
      kind,
      ...(demand === undefined ? {} : { demand }),
      fromMm: placeOf(muscle, fromKg),
      toMm: placeOf(muscle, toKg),
      massKg: toKg - fromKg,
    }));
}

/** Everything but the ends, from the butt end on. */
function ordered(
  { butt, tail, lots, shortKg, keepKg }: MuscleAllotment,
  demands: readonly Demand[],
  muscle: Muscle,
): Placed[] {
  const placed: Placed[] = [];
  let atKg = 0;
  const put = (piece: Omit<Placed, 'fromKg' | 'toKg'>, fromKg: number, toKg: number): void => {
    placed.push({ ...piece, fromKg, toKg });
    atKg = toKg;
  };
  const massOf = (index: number, name: ClassName, classKg: number): number => {
    const { massKg = 0 } = demands[index];
    return massKg * (1 - (shortKg.get(name) ?? 0) / classKg);
  };
  if (butt !== undefined) {
    const kg = massOf(butt, 'butt', demands[butt].massKg ?? 0);
    put({ use: 'order', kind: 'butt', demand: butt }, 0, kg);
  } else if (keepKg.butt > 0) put({ use: 'sell', kind: 'butt' }, 0, keepKg.butt);

  const centre = { ...PARTS.centre, massKg: 0 };
  const windows = new Map(lots.map(({ window }) => [classOf(window), window]));
  for (const window of inOrder([...windows.set(CENTRE_CLASS, centre).values()])) {
    const name = classOf(window);
    const startKg = massBeforeShare(muscle, window.from);
    const members = lots.filter((lot) => classOf(lot.window) === name);
    const classKg = members.reduce(
      (sum, { demand, pieces }) => sum + pieces * (demands[demand].massKg ?? 0),
      0,
    );
    // steaks before roasts, heavy before light: it reads better, and any order fits
    members.sort((a, b) => {
      const [left, right] = [demands[a.demand], demands[b.demand]];
      return left.kind === right.kind
        ? b.window.massKg - a.window.massKg
        : Number(left.kind === 'centre') - Number(right.kind === 'centre');
    });
    for (const { demand, pieces } of members) {
      const { kind, thicknessMm } = demands[demand];
      for (let piece = 0; piece < pieces; piece++) {
        const fromKg = Math.max(atKg, startKg);
        const toKg =
          thicknessMm === undefined
            ? fromKg + massOf(demand, name, classKg)
            : massBefore(muscle, placeOf(muscle, fromKg) + thicknessMm);
        put({ use: 'order', kind: kind as CutPiece['kind'], demand }, fromKg, toKg);
      }
    }
    if (name === CENTRE_CLASS && keepKg.centre > 0) {
      const fromKg = Math.max(atKg, startKg);
      put({ use: 'sell', kind: 'centre' }, fromKg, fromKg + keepKg.centre);
    }
  }

  const { massKg } = muscle;
  if (tail !== undefined) {
    const kg = massOf(tail, 'tail', demands[tail].massKg ?? 0);
    put({ use: 'order', kind: 'tail', demand: tail }, massKg - kg, massKg);
  } else if (keepKg.tail > 0) put({ use: 'sell', kind: 'tail' }, massKg - keepKg.tail, massKg);
  return placed;
}

/** Stretches between pieces [kg]. */
function gapsOf(placed: readonly Placed[], { massKg }: Muscle): { fromKg: number; toKg: number }[] {
  const gaps: { fromKg: number; toKg: number }[] = [];
  let atKg = 0;
  for (const { fromKg, toKg } of [...placed, { fromKg: massKg, toKg: massKg }]) {
    if (fromKg - atKg > HAIR_KG) gaps.push({ fromKg: atKg, toKg: fromKg });
    atKg = toKg;
  }
  return gaps;
}

/** Lets roasts that are kept grow into the gaps beside them, and makes new ones of gaps that are large enough. */
function growKept(placed: Placed[], muscle: Muscle, spareKg: number): void {
  const reach: Readonly<Record<Part, readonly [from: number, to: number]>> = {
    butt: [0, massBeforeShare(muscle, PARTS.buttTo)],
    centre: [massBeforeShare(muscle, PARTS.centre.from), massBeforeShare(muscle, PARTS.centre.to)],
    tail: [massBeforeShare(muscle, PARTS.tailFrom), muscle.massKg],
  };
  let leftKg = spareKg;
  for (const { fromKg, toKg } of gapsOf(placed, muscle)) {
    const before = placed.find((piece) => Math.abs(piece.toKg - fromKg) < HAIR_KG);
    const after = placed.find((piece) => Math.abs(piece.fromKg - toKg) < HAIR_KG);
    let startKg = fromKg;
    if (before?.use === 'sell') {
      startKg = Math.max(
        fromKg,
        Math.min(toKg, reach[before.kind as Part][1], fromKg + Math.max(0, leftKg)),
      );
      leftKg -= startKg - fromKg;
      before.toKg = startKg;
    }
    if (after?.use === 'sell') {
      const stopKg = Math.min(
        toKg,
        Math.max(startKg, reach[after.kind as Part][0], toKg - Math.max(0, leftKg)),
      );
      leftKg -= toKg - stopKg;
      after.fromKg = stopKg;
    }
  }
  for (const kind of ['centre', 'tail', 'butt'] as const) {
    for (const gap of gapsOf(placed, muscle)) {
      const isEnd = kind === 'butt' ? gap.fromKg === 0 : gap.toKg === muscle.massKg;
      if (kind !== 'centre' && !isEnd) continue;
      let fromKg = Math.max(gap.fromKg, reach[kind][0]);
      let toKg = Math.min(gap.toKg, reach[kind][1]);
      if (kind === 'tail') fromKg = Math.max(fromKg, toKg - leftKg);
      else toKg = Math.min(toKg, fromKg + leftKg);
      if (toKg - fromKg < LEAST_TO_SELL_KG[kind]) continue;
      leftKg -= toKg - fromKg;
      placed.push({ use: 'sell', kind, fromKg, toKg });
      placed.sort((a, b) => a.fromKg - b.fromKg);
    }
  }
}
