import {
  type CutOrder,
  type CutPiece,
  type CuttingList,
  lengthText,
  massText,
  ounces,
  STOCK_KG,
  type TenderloinUse,
  thicknessText,
  type UnitSystem,
  VALUE_GAP,
} from '@roastsim/core';
import type { CuttingRow } from '../read/cuttingOrders.js';

/** Neighbouring pieces that are alike and for one order. */
export interface SheetPiece {
  /** Stands on the drawing and before the line; a point for ends. */
  readonly letter: string;
  readonly use: CutPiece['use'];
  readonly fromMm: number;
  readonly toMm: number;
  /** Where the knife goes within and after it [mm], the end of the tenderloin left out. */
  readonly cutsMm: readonly number[];
  /** `101 to 212 mm`. */
  readonly where: string;
  /** `3 steaks of 200 g`. */
  readonly what: string;
  /** `row 5, Anna Lindqvist`, `to sell`. */
  readonly forWhom: string;
}

/** One tenderloin to be cut. */
export interface SheetBlock {
  /** Its number in the stock, the first being 1. */
  readonly number: number;
  readonly heading: string;
  readonly use: TenderloinUse;
  readonly pieces: readonly SheetPiece[];
}

/** A cutting list in words, for every printer. */
export interface CuttingSheet {
  readonly units: UnitSystem;
  readonly headline: string;
  /** How good the list is. */
  readonly verdict: string;
  readonly blocks: readonly SheetBlock[];
  /** Tenderloins that are not cut. */
  readonly uncut: readonly string[];
  readonly totals: readonly string[];
  /** Orders that are not served and what would help; none when all are. */
  readonly missing: readonly string[];
  /** What else should be known: rows left out, several days. */
  readonly remarks: readonly string[];
}

/** What a sheet needs beside the list. */
export interface SheetContext {
  /** In the order of the request. */
  readonly rows: readonly CuttingRow[];
  readonly units: UnitSystem;
  readonly remarks: readonly string[];
}

/** Puts a cutting list into words. */
export function cuttingSheet(list: CuttingList, context: SheetContext): CuttingSheet {
  const { rows, units, remarks } = context;
  const mass = (kg: number): string => massText(kg, units);
  const { totals } = list;
  const served = list.served.filter(Boolean).length;
  return {
    units,
    headline:
      `${plural(rows.length, 'order')} on ${plural(list.tenderloins.length, 'tenderloin')}, ` +
      `${mass(totals.stockKg)}`,
    verdict: verdictOf(list, served),
    blocks: list.tenderloins.flatMap((use, j) =>
      use.use === 'cut' ? [blockOf(use, j + 1, context)] : [],
    ),
    uncut: uncutLines(list, context),
    totals: [
      `To orders ${mass(totals.orderedKg)}, roasts to sell ${mass(totals.toSellKg)}, ` +
        `ends left over ${mass(totals.spareEndsKg)} ` +
        `(${(100 * totals.wasteShare).toFixed(1)} % of the ${mass(totals.cutKg)} cut up)` +
        `${totals.spareKg > 0 ? `, not touched ${mass(totals.spareKg)}` : ''}.`,
    ],
    missing: missingLines(list, context),
    remarks,
  };
}

const plural = (count: number, what: string): string => `${count} ${what}${count === 1 ? '' : 's'}`;

function verdictOf({ served, proof }: CuttingList, count: number): string {
  const all = served.length;
  const orders =
    count === all
      ? `All ${plural(all, 'order')} served`
      : proof.servedAtMost <= count
        ? `${count} of ${plural(all, 'order')} served, proven to be the most`
        : `${count} of ${plural(all, 'order')} served; it is not proven that ${proof.servedAtMost} cannot be`;
  const { valueGap } = proof;
  const value =
    valueGap === undefined
      ? 'no time was left to find out what more could be made of the meat'
      : valueGap <= VALUE_GAP
        ? `best use of the meat, proven within ${percent(VALUE_GAP)}`
        : `at most ${percent(valueGap)} of the value of the meat could still be gained`;
  return `${orders}; ${value}.`;
}

const percent = (share: number): string => `${(100 * share).toFixed(1)} %`;

function blockOf(use: TenderloinUse, number: number, context: SheetContext): SheetBlock {
  const { units } = context;
  return {
    number,
    heading:
      `Tenderloin ${number}: ${massText(use.massKg, units)}, ` +
      `${lengthText(use.lengthMm, units)} long, butt end left`,
    use,
    pieces: groupsOf(use, context.rows).map((pieces, i, all): SheetPiece => {
      const letters = all.slice(0, i).filter(([piece]) => piece.use !== 'ends').length;
      const [first] = pieces;
      const { toMm } = pieces[pieces.length - 1];
      return {
        letter: first.use === 'ends' ? '.' : letterOf(letters),
        use: first.use,
        fromMm: first.fromMm,
        toMm,
        cutsMm: pieces.map((piece) => piece.toMm).filter((at) => at < use.lengthMm - 1),
        where: `${placeText(first.fromMm, units)} to ${placeText(toMm, units)}${units === 'us' ? ' in' : ' mm'}`,
        what: whatOf(pieces, context) + cutsText(pieces, units),
        forWhom: forWhomOf(first, use, context),
      };
    }),
  };
}

/** A place without its unit: `101`, `4.0`. */
export const placeText = (mm: number, units: UnitSystem): string =>
  thicknessText(mm, units).replace(/ (mm|in)$/, '');

const letterOf = (index: number): string =>
  'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz'.charAt(index) || '#';

/** Neighbours for one order that weigh the same, or are equally thick, stand on one line. */
function groupsOf({ pieces }: TenderloinUse, rows: readonly CuttingRow[]): CutPiece[][] {
  const groups: CutPiece[][] = [];
  for (const piece of pieces) {
    const last = groups.at(-1)?.[0];
    const alike =
      piece.order !== undefined &&
      last?.order === piece.order &&
      rows[piece.order].order.kind === 'steak';
    if (alike) groups.at(-1)?.push(piece);
    else groups.push([piece]);
  }
  return groups;
}

const NAMES = {
  centre: 'centre roast',
  butt: 'butt roast',
  tail: 'tail roast',
  steak: 'steak',
  tips: 'ends',
} as const;

/** Weight of a piece: below a pound to a tenth of an ounce, since steaks are sold by it. */
const pieceText = (massKg: number, units: UnitSystem): string =>
  units === 'us' && ounces(massKg) < 15.95
    ? `${ounces(massKg).toFixed(1)} oz`
    : massText(massKg, units);

function whatOf(pieces: readonly CutPiece[], { rows, units }: SheetContext): string {
  const [{ kind, use, order, massKg }] = pieces;
  const mass = (kg: number): string => pieceText(kg, units);
  const ordered: CutOrder | undefined = order === undefined ? undefined : rows[order].order;
  const name = pieces.length > 1 ? `${pieces.length} ${NAMES[kind]}s` : NAMES[kind];
  if (ordered?.thicknessMm !== undefined) {
    const masses = pieces.map((piece) => piece.massKg);
    const [least, most] = [mass(Math.min(...masses)), mass(Math.max(...masses))];
    const weights = least === most ? least : `${least} to ${most}`;
    return `${name} ${thicknessText(ordered.thicknessMm, units)} thick, about ${weights}`;
  }
  const wanted = mass(ordered?.massKg ?? massKg);
  const asked = use === 'order' && wanted !== mass(massKg) ? ` (${wanted} ordered)` : '';
  return pieces.length > 1
    ? `${name} of ${mass(massKg)}${asked}`
    : `${name}, ${mass(massKg)}${asked}`;
}

/** Where the knife goes between like pieces. */
const cutsText = (pieces: readonly CutPiece[], units: UnitSystem): string =>
  pieces.length === 1
    ? ''
    : ` (cuts at ${pieces.map(({ toMm }) => placeText(toMm, units)).join(', ')})`;

const SHORT_KG = 0.001; // below a gram nobody is told

/** `row 5, Anna Lindqvist`. */
export const rowText = ({ row, name }: CuttingRow): string =>
  name === undefined ? `row ${row}` : `row ${row}, ${name}`;

/** The same with what the row says beside: how cubes are cut, a ribbon. */
const notedText = (row: CuttingRow): string =>
  row.note === undefined ? rowText(row) : `${rowText(row)} (${row.note})`;

function forWhomOf(
  piece: CutPiece,
  { pieces, tips }: TenderloinUse,
  context: SheetContext,
): string {
  const { rows, units } = context;
  if (piece.order !== undefined) return `for ${notedText(rows[piece.order])}`;
  if (piece.use === 'sell') return 'to sell';
  // the ends of one tenderloin go into one dish: what is taken from them stands at the first
  const first = pieces.find(({ use }) => use === 'ends');
  if (tips.length === 0) return 'left over';
  if (piece !== first) return 'with the first ends';
  const several = pieces.filter(({ use }) => use === 'ends').length > 1;
  const endsKg = pieces.reduce((sum, each) => sum + (each.use === 'ends' ? each.massKg : 0), 0);
  const given = tips.map(
    ({ order, massKg }) => `${pieceText(massKg, units)} tips for ${notedText(rows[order])}`,
  );
  const leftKg = endsKg - tips.reduce((sum, { massKg }) => sum + massKg, 0);
  const left = leftKg > SHORT_KG ? [`${pieceText(leftKg, units)} left over`] : [];
  return `${several ? 'from all ends ' : ''}${[...given, ...left].join('; ')}`;
}

function uncutLines({ tenderloins }: CuttingList, { rows, units }: SheetContext): string[] {
  const lines = tenderloins.flatMap(({ use, massKg, order }, j) => {
    if (use !== 'whole' || order === undefined) return [];
    const wanted = rows[order].order.massKg;
    const asked =
      wanted !== undefined && Math.abs(wanted - massKg) > SHORT_KG
        ? ` (${massText(wanted, units)} ordered)`
        : '';
    return [
      `Tenderloin ${j + 1}: ${massText(massKg, units)}, whole, for ${rowText(rows[order])}${asked}`,
    ];
  });
  const spare = tenderloins.flatMap(({ use, massKg }, j) =>
    use === 'spare' ? [`${j + 1} (${massText(massKg, units)})`] : [],
  );
  return spare.length === 0
    ? lines
    : [
        ...lines,
        `Not touched: ${spare.length === 1 ? 'tenderloin' : 'tenderloins'} ${spare.join(', ')}`,
      ];
}

/** An order in words: `2 centre roasts of 1.10 kg`. */
export function orderText(order: CutOrder, units: UnitSystem): string {
  const { kind, pieces, massKg, thicknessMm } = order;
  if (kind === 'tips') return `${pieceText(massKg ?? 0, units)} of tips`;
  const name = kind === 'whole' ? 'whole tenderloin' : NAMES[kind];
  const counted = pieces === 1 ? `one ${name}` : `${pieces} ${name}s`;
  if (thicknessMm !== undefined) return `${counted}, ${thicknessText(thicknessMm, units)} thick`;
  return massKg === undefined ? counted : `${counted} of ${pieceText(massKg, units)}`;
}

function missingLines({ missing }: CuttingList, { rows, units }: SheetContext): string[] {
  if (missing === undefined) return [];
  const mass = (kg: number): string => massText(kg, units);
  const impossible = new Set(missing.impossible);
  const lines = missing.orders.map((order) => {
    const beyond = impossible.has(order)
      ? `: no tenderloin up to ${mass(STOCK_KG[1])} is large enough for it`
      : '';
    return `${rowText(rows[order])}: ${orderText(rows[order].order, units)}${beyond}`;
  });
  const parts = missing.byKind.map(({ kind, massKg }) => `${mass(massKg)} of ${PART_NAMES[kind]}`);
  const counts = new Map<string, number>();
  for (const { leastKg, mostKg } of missing.tenderloins) {
    const which =
      mostKg === undefined
        ? `of ${mass(leastKg)} or more`
        : `of ${mass(leastKg)} to ${mass(mostKg)}, to be sold whole`;
    counts.set(which, (counts.get(which) ?? 0) + 1);
  }
  const more = [...counts].map(([which, count]) => `${count} more ${which}`);
  return [
    ...lines,
    `By part, that is ${parts.join(', ')}.`,
    ...(more.length === 0 ? [] : [`These tenderloins would do: ${more.join('; ')}.`]),
  ];
}

const PART_NAMES: Readonly<Record<CutOrder['kind'], string>> = {
  whole: 'whole tenderloin',
  centre: 'centre',
  butt: 'butt',
  tail: 'tail',
  steak: 'butt or centre for steaks',
  tips: 'tips',
};
