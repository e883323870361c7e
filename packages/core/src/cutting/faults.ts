import { meatOf } from '../meat/index.js';
import { areaAt, diameterAt } from '../shape/index.js';
import type { CutPiece, CuttingList, TenderloinUse } from './cuttingList.js';
import { type Muscle, muscleOf, PARTS, STEAK_NARROWEST_MM } from './muscle.js';
import { type CutOrder, type CuttingRequest, TOLERANCE } from './order.js';

const NEAR_MM = 0.05; // what a knife cannot do anyway
const NEAR_KG = 2e-4;
const SLICES_A_MM = 4;
const FLAT_ASPECT = 0.7; // height over width of an untied tenderloin, as in CUTS.whole

/**
 * What is wrong with a cutting list, in sentences; nothing when all is well. It weighs the pieces anew by slicing the muscle thinly
 * and knows nothing of how the list was found.
 *
 * @example
 * const solve: Solve = async (_lp, { start }) => ({ status: 'stopped', objective: 0, bound: 1e6, values: start })
 * const request = { orders: [{ kind: 'whole', pieces: 1 } as const], stockKg: [2.4] }
 * cuttingFaults(request, await cutTenderloins(request, solve, () => 0)) // => []
 */
export function cuttingFaults(request: CuttingRequest, list: CuttingList): string[] {
  const { orders, stockKg, tolerance = TOLERANCE } = request;
  const { densityKgPerM3 = meatOf().densityKgPerM3 } = request;
  const faults: string[] = [];
  const given = orders.map(() => ({ pieces: 0, tipsKg: 0 }));
  if (list.tenderloins.length !== stockKg.length)
    faults.push('tenderloins are missing or too many');
  for (const [j, tenderloin] of list.tenderloins.entries()) {
    const say = (fault: string): void => void faults.push(`tenderloin ${j + 1}: ${fault}`);
    if (tenderloin.massKg !== stockKg[j]) say('its weight is another');
    const { use, pieces, tips, order } = tenderloin;
    if (use !== 'cut' && (pieces.length > 0 || tips.length > 0))
      say('it is not cut, yet has pieces');
    if (use === 'whole') {
      if (order === undefined || orders[order].kind !== 'whole') say('no whole one was ordered');
      else {
        const { massKg = tenderloin.massKg } = orders[order];
        given[order].pieces++;
        if (Math.abs(massKg - tenderloin.massKg) > 2 * tolerance * massKg + NEAR_KG) {
          say('its weight is too far from the order');
        }
      }
    }
    if (use !== 'cut') continue;
    const muscle = muscleOf(tenderloin.massKg, densityKgPerM3);
    for (const fault of layoutFaults(tenderloin, muscle)) say(fault);
    for (const piece of pieces) {
      if (piece.use === 'order') {
        if (piece.order === undefined) say('a piece is for nobody');
        else {
          given[piece.order].pieces++;
          const fault = orderFault(piece, orders[piece.order], tolerance);
          if (fault !== undefined) say(fault);
        }
      }
      const fault = placeFault(piece, muscle);
      if (fault !== undefined) say(fault);
    }
    const endsKg = pieces.reduce((sum, p) => sum + (p.use === 'ends' ? p.massKg : 0), 0);
    const tipsKg = tips.reduce((sum, { massKg }) => sum + massKg, 0);
    if (tipsKg > endsKg + NEAR_KG) say('more tips than ends');
    for (const each of tips) {
      given[each.order].tipsKg += each.massKg;
      if (orders[each.order].kind !== 'tips') say('tips nobody ordered');
    }
  }
  for (const [index, { kind, pieces, massKg = 0 }] of orders.entries()) {
    const served = list.served[index];
    const wanted = served && kind !== 'tips' ? pieces : 0;
    if (given[index].pieces !== wanted) faults.push(`order ${index + 1}: wrong number of pieces`);
    const wantedKg = served && kind === 'tips' ? massKg : 0;
    if (Math.abs(given[index].tipsKg - wantedKg) > NEAR_KG) {
      faults.push(`order ${index + 1}: wrong weight of tips`);
    }
  }
  return faults;
}

/** Pieces side by side from end to end, each weighing what is said. */
function layoutFaults({ pieces, lengthMm }: TenderloinUse, muscle: Muscle): string[] {
  const faults: string[] = [];
  let atMm = 0;
  for (const { fromMm, toMm, massKg, kind } of pieces) {
    if (Math.abs(fromMm - atMm) > NEAR_MM)
      faults.push(`${kind}: a gap or an overlap at ${atMm} mm`);
    if (!(toMm > fromMm)) faults.push(`${kind}: it has no length`);
    const weighed = weigh(muscle, fromMm, toMm);
    if (Math.abs(weighed - massKg) > NEAR_KG) {
      faults.push(`${kind}: it weighs ${weighed} kg, not ${massKg} kg`);
    }
    atMm = toMm;
  }
  if (Math.abs(lengthMm - atMm) > NEAR_MM) faults.push(`the pieces end at ${atMm} mm`);
  return faults;
}

/** Mass between two places [kg], by thin slices. */
function weigh({ profile, densityKgPerM3 }: Muscle, fromMm: number, toMm: number): number {
  const slices = Math.max(8, Math.ceil((toMm - fromMm) * SLICES_A_MM));
  const thickM = (toMm - fromMm) / slices / 1000;
  let volume = 0;
  for (let i = 0; i < slices; i++) {
    volume += areaAt(profile, fromMm / 1000 + (i + 0.5) * thickM) * thickM;
  }
  return volume * densityKgPerM3;
}

/** Whether a piece is what was ordered. */
function orderFault(piece: CutPiece, order: CutOrder, tolerance: number): string | undefined {
  if (piece.kind !== order.kind) return `${piece.kind} for an order of ${order.kind}`;
  if (order.thicknessMm !== undefined) {
    const off = Math.abs(piece.toMm - piece.fromMm - order.thicknessMm);
    return off > NEAR_MM ? `a steak is ${piece.toMm - piece.fromMm} mm thick` : undefined;
  }
  const { massKg = 0 } = order;
  const short = massKg - piece.massKg;
  return short > tolerance * massKg + NEAR_KG || short < -NEAR_KG
    ? `${piece.kind}: ${piece.massKg} kg for an order of ${massKg} kg`
    : undefined;
}

/** Whether a piece comes from where it must. */
function placeFault({ kind, use, fromMm, toMm }: CutPiece, muscle: Muscle): string | undefined {
  const { lengthMm, profile } = muscle;
  const within = (from: number, to: number): boolean =>
    fromMm >= from * lengthMm - NEAR_MM && toMm <= to * lengthMm + NEAR_MM;
  if (use === 'ends') return undefined;
  switch (kind) {
    case 'centre':
      return within(PARTS.centre.from, PARTS.centre.to)
        ? undefined
        : 'a centre roast off the centre';
    case 'butt':
      return fromMm === 0 && within(0, PARTS.buttTo) ? undefined : 'a butt roast off the butt';
    case 'tail':
      return within(PARTS.tailFrom, 1) && Math.abs(toMm - lengthMm) < NEAR_MM
        ? undefined
        : 'a tail roast off the tail';
    case 'steak': {
      const faces = [fromMm, toMm].map((at) => 1000 * diameterAt(profile, at / 1000));
      const thinnest = Math.min(...faces);
      if (!within(PARTS.steak.from, PARTS.steak.to)) return 'a steak off butt and centre';
      if (thinnest * Math.sqrt(FLAT_ASPECT) < STEAK_NARROWEST_MM) return 'a steak too narrow';
      return toMm - fromMm > thinnest + NEAR_MM ? 'a steak taller than wide' : undefined;
    }
    default:
      return `${kind} is no piece`;
  }
}
