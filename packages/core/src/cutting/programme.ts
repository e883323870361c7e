import type { Allotment, MuscleAllotment } from './allotment.js';
import { LIMITS } from './checkRequest.js';
import { type Demand, type Window, windowsOf } from './demand.js';
import { isNear } from './firstFit.js';
import { LinearProgramme, type Term } from './linearProgramme.js';
import { type Muscle, massBeforeShare, PARTS } from './muscle.js';
import type { KindPrices } from './order.js';
import { CENTRE_CLASS, type ClassName, classOf, roomsOf } from './rooms.js';

/** Parts that can be sold as roasts without an order. */
export type Part = 'butt' | 'centre' | 'tail';
const PARTS_TO_SELL = ['butt', 'centre', 'tail'] as const satisfies readonly Part[];

/** Least weights at which what is left can be sold as a roast [kg]: the low ends of `CUTS.*.usualKg`. */
export const LEAST_TO_SELL_KG: Readonly<Record<Part, number>> = {
  butt: 0.4,
  centre: 0.4,
  tail: 0.2,
};

/** Value of meat nobody ordered, against ordered. Engineering judgement: low enough that nothing is cut without an order. */
export const UNORDERED = 0.75;

/** Cost of cutting into a tenderloin, in kilograms of whole ones: it keeps less long, and is work. Engineering judgement. */
export const OPENING_KG = 0.05;

// Engineering judgement: what a kilogram below an ordered weight costs in kilograms of centre, so that meat is not saved that way
// for its own sake; and what a kilogram between an ordered and a given whole tenderloin costs in kilograms of whole.
const SHORT_COST = 1.5;
const OFF_COST = 0.5;

const LEAST_SLAB_KG = 0.02;
const HAIR = 1e-9;
const HAIR_KG = 1e-6; // what the solver leaves of a mass that is 0

/** A variable that counts pieces of one demand in one window. */
interface LotVariable {
  readonly demand: number;
  readonly window: Window;
  readonly count: string;
}

/** Variables of one muscle. */
interface MuscleVariables {
  readonly opened: string;
  readonly whole: ReadonlyMap<number, string>;
  readonly butt: ReadonlyMap<number, string>;
  readonly tail: ReadonlyMap<number, string>;
  readonly lots: readonly LotVariable[];
  readonly shortKg: ReadonlyMap<ClassName, string>;
  readonly keepKg: Readonly<Record<Part, string>>;
  readonly tipsKg: string;
}

/** Values of variables by name. */
type Values = Readonly<Record<string, number>>;

/** The cutting list as an integer programme. */
export interface Programme {
  /** Maximises how many orders are served. */
  readonly mostServed: string;
  /** Maximises what the meat brings while so many orders are served. */
  readonly mostValue: (servedOrders: number) => string;
  /** Minimises over how many tenderloins like steaks are spread, while so many orders are served and the meat brings so much. */
  readonly leastSpread: (servedOrders: number, value: number) => string;
  readonly encode: (allotment: Allotment) => Values;
  /** Adds the values of the variables that only {@link leastSpread} has. */
  readonly withSpread: (values: Values) => Values;
  readonly decode: (values: Values) => Allotment;
}

/** Sets the programme up. Its rows, and why they hold: docs/cutting.md. */
export function programmeOf(
  demands: readonly Demand[],
  muscles: readonly Muscle[],
  tolerance: number,
  prices: KindPrices,
): Programme {
  const lp = new LinearProgramme();
  const value: Term[] = [];
  const served: string[] = [];
  for (const { orders } of demands) {
    for (const { index } of orders) served[index] = lp.variable('whole number', 1);
  }
  const all = muscles.map((muscle) =>
    muscleRows({
      lp,
      value,
      demands,
      muscle,
      tolerance,
      prices,
      opened: lp.variable('whole number', 1),
      terms: new Map(),
      mayLack: new Map(),
    }),
  );
  demandRows(lp, demands, all, served);
  value.push(...orderValue(demands, all, served, prices));
  symmetryRows(lp, demands, muscles, all, served);
  const count: Term[] = served.map((name) => [name, 1]);
  const spread = spreadOf(lp, demands, all);
  return {
    mostServed: lp.text(count),
    mostValue: (servedOrders) => lp.text(value, [{ terms: count, limit: servedOrders }]),
    leastSpread: (servedOrders, least) =>
      lp.text(
        spread.map(({ used }): Term => [used, -1]),
        [
          { terms: count, limit: servedOrders },
          { terms: value, limit: least },
          ...spread.map(({ used, lots }) => ({
            terms: [[used, LIMITS.pieces], ...lots.map(({ count: n }): Term => [n, -1])] as Term[],
            limit: 0,
          })),
        ],
      ),
    encode: (allotment) => encoded(allotment, all, served),
    withSpread: (values) => ({
      ...values,
      ...Object.fromEntries(
        spread.map(({ used, lots }) => [
          used,
          lots.some(({ count: n }) => (values[n] ?? 0) > 0.5) ? 1 : 0,
        ]),
      ),
    }),
    decode: (values) => decoded(values, all, served),
  };
}

/** By demand of several steaks and muscle: a variable for whether any of them comes from there. */
function spreadOf(
  lp: LinearProgramme,
  demands: readonly Demand[],
  muscles: readonly MuscleVariables[],
): { used: string; lots: readonly LotVariable[] }[] {
  return demands.flatMap(({ kind, orders }, demand) => {
    if (kind !== 'steak' || orders.every(({ pieces }) => pieces === 1)) return [];
    return muscles.flatMap((muscle) => {
      const lots = muscle.lots.filter((lot) => lot.demand === demand);
      return lots.length === 0 ? [] : [{ used: lp.variable('whole number', 1), lots }];
    });
  });
}

/** One muscle, its rows in the making. */
interface Draft {
  readonly lp: LinearProgramme;
  readonly value: Term[];
  readonly demands: readonly Demand[];
  readonly muscle: Muscle;
  readonly tolerance: number;
  readonly prices: KindPrices;
  readonly opened: string;
  /** Mass of each class. */
  readonly terms: Map<ClassName, Term[]>;
  /** Mass by which each class may fall short. */
  readonly mayLack: Map<ClassName, Term[]>;
}

const pushTo = (map: Map<ClassName, Term[]>, name: ClassName, term: Term): void => {
  const known = map.get(name);
  if (known === undefined) map.set(name, [term]);
  else known.push(term);
};

function muscleRows(draft: Draft): MuscleVariables {
  const { lp, muscle, opened } = draft;
  const whole = wholeRows(draft);
  const lots = lotRows(draft);
  const butt = endRows(draft, 'butt');
  const tail = endRows(draft, 'tail');
  const centreKg = keepRows(draft, 'centre', muscle.massKg);
  pushTo(draft.terms, CENTRE_CLASS, [centreKg, 1]);
  const shortKg = shortRows(draft);
  const windows = new Map(lots.map(({ window }) => [classOf(window), window]));
  const used = [...new Map([...windows, [CENTRE_CLASS, { ...PARTS.centre, massKg: 0 }]]).values()];
  for (const { classes, roomKg } of roomsOf(muscle, used)) {
    lp.row([...classes.flatMap((name) => draft.terms.get(name) ?? []), [opened, -roomKg]], '<=', 0);
  }
  const tipsKg = lp.variable('number', muscle.massKg);
  const taken = [...draft.terms.values()].flat();
  lp.row([...taken, [tipsKg, 1], [opened, -muscle.massKg]], '<=', 0);
  const keepKg = { butt: butt.keepKg, centre: centreKg, tail: tail.keepKg };
  draft.value.push(...meatValue(draft, taken, keepKg, tipsKg));
  return { opened, whole, butt: butt.ordered, tail: tail.ordered, lots, shortKg, keepKg, tipsKg };
}

/** Either sold uncut, to one demand it is near to, or opened, or neither. */
function wholeRows({
  lp,
  value,
  demands,
  muscle,
  tolerance,
  prices,
  opened,
}: Draft): Map<number, string> {
  const whole = new Map<number, string>();
  for (const [demand, each] of demands.entries()) {
    if (each.kind !== 'whole' || !isNear(muscle, each, tolerance)) continue;
    const sold = lp.variable('whole number', 1);
    whole.set(demand, sold);
    // it brings the price of its own weight, which is what the stock loses
    const offKg = each.massKg === undefined ? 0 : Math.abs(muscle.massKg - each.massKg);
    value.push([sold, -OFF_COST * prices.whole * offKg]);
  }
  const uses: Term[] = [...whole.values()].map((sold) => [sold, 1]);
  lp.row([[opened, 1], ...uses], '<=', 1);
  return whole;
}

function lotRows({ lp, demands, muscle, tolerance, terms, mayLack }: Draft): LotVariable[] {
  const lots: LotVariable[] = [];
  for (const [demand, each] of demands.entries()) {
    for (const window of windowsOf(each, muscle)) {
      const roomKg = massBeforeShare(muscle, window.to) - massBeforeShare(muscle, window.from);
      const leastKg =
        each.thicknessMm === undefined ? window.massKg * (1 - tolerance) : LEAST_SLAB_KG;
      const most = Math.floor(roomKg / leastKg + HAIR);
      if (most === 0) continue;
      const count = lp.variable('whole number', most);
      lots.push({ demand, window, count });
      pushTo(terms, classOf(window), [count, window.massKg]);
      if (each.thicknessMm === undefined) {
        pushTo(mayLack, classOf(window), [count, tolerance * window.massKg]);
      }
    }
  }
  return lots;
}

/** One ordered roast at an end, or one kept to be sold. */
function endRows(
  draft: Draft,
  end: 'butt' | 'tail',
): { ordered: Map<number, string>; keepKg: string } {
  const { lp, demands, muscle, tolerance, opened, terms, mayLack } = draft;
  const ordered = new Map<number, string>();
  for (const [demand, { kind, massKg = 0 }] of demands.entries()) {
    if (kind !== end || massKg * (1 - tolerance) > muscle.massKg) continue;
    const one = lp.variable('whole number', 1);
    ordered.set(demand, one);
    pushTo(terms, end, [one, massKg]);
    pushTo(mayLack, end, [one, tolerance * massKg]);
  }
  const others: Term[] = [...ordered.values()].map((one) => [one, 1]);
  const keepKg = keepRows(draft, end, muscle.massKg, others);
  pushTo(terms, end, [keepKg, 1]);
  lp.row([...others, [opened, -1]], '<=', 0);
  return { ordered, keepKg };
}

/** A mass that is either 0 or enough to be sold, and 0 where one of the `others` lies. */
function keepRows(
  { lp, opened }: Draft,
  part: Part,
  mostKg: number,
  others: readonly Term[] = [],
): string {
  const keepKg = lp.variable('number', mostKg);
  const kept = lp.variable('whole number', 1);
  lp.row(
    [
      [keepKg, 1],
      [kept, -mostKg],
    ],
    '<=',
    0,
  );
  lp.row(
    [
      [kept, LEAST_TO_SELL_KG[part]],
      [keepKg, -1],
    ],
    '<=',
    0,
  );
  lp.row([...others, [kept, 1], [opened, -1]], '<=', 0);
  return keepKg;
}

/** What the pieces of a class together fall short; none falls short by more than its share, since they share alike. */
function shortRows({ lp, value, muscle, prices, terms, mayLack }: Draft): Map<ClassName, string> {
  const shortKg = new Map<ClassName, string>();
  for (const [name, most] of mayLack) {
    const kg = lp.variable('number', muscle.massKg);
    lp.row([[kg, 1], ...most.map(([count, each]): Term => [count, -each])], '<=', 0);
    pushTo(terms, name, [kg, -1]);
    value.push([kg, -SHORT_COST * prices.centre]);
    shortKg.set(name, kg);
  }
  return shortKg;
}

/** What a muscle is worth beyond its orders, against lying uncut. */
function meatValue(
  { muscle: { massKg }, prices, opened }: Draft,
  taken: readonly Term[],
  keepKg: Readonly<Record<Part, string>>,
  tipsKg: string,
): Term[] {
  const spare = prices.tips * UNORDERED;
  return [
    [opened, massKg * spare - (massKg + OPENING_KG) * prices.whole],
    ...[...taken, [tipsKg, 1] as const].map(([name, kg]): Term => [name, -kg * spare]),
    ...PARTS_TO_SELL.map((part): Term => [keepKg[part], UNORDERED * prices[part]]),
  ];
}

/** An order is served in full or not at all. */
function demandRows(
  lp: LinearProgramme,
  demands: readonly Demand[],
  muscles: readonly MuscleVariables[],
  served: readonly string[],
): void {
  const tips: Term[] = muscles.map(({ tipsKg }) => [tipsKg, -1]);
  for (const [demand, { kind, massKg = 0, orders }] of demands.entries()) {
    if (kind === 'tips') {
      tips.push(...orders.map(({ index }): Term => [served[index], massKg]));
      continue;
    }
    const cut = muscles.flatMap(({ whole, butt, tail, lots }): Term[] => [
      ...[whole, butt, tail].flatMap((each): Term[] => {
        const name = each.get(demand);
        return name === undefined ? [] : [[name, 1]];
      }),
      ...lots.filter((lot) => lot.demand === demand).map(({ count }): Term => [count, 1]),
    ]);
    lp.row([...cut, ...orders.map(({ index, pieces }): Term => [served[index], -pieces])], '=', 0);
  }
  lp.row(tips, '=', 0);
}

function orderValue(
  demands: readonly Demand[],
  muscles: readonly MuscleVariables[],
  served: readonly string[],
  prices: KindPrices,
): Term[] {
  return demands.flatMap(({ kind, massKg = 0, thicknessMm, orders }, demand): Term[] => {
    if (kind === 'whole') return []; // see wholeRows
    if (thicknessMm === undefined) {
      return orders.map(({ index, pieces }) => [served[index], pieces * massKg * prices[kind]]);
    }
    // A slab is worth no more than the meat it takes: its place is chosen for the room it leaves, not for its weight.
    return muscles.flatMap(({ lots }) =>
      lots
        .filter((lot) => lot.demand === demand)
        .map(({ count, window }): Term => [count, window.massKg * prices.centre * UNORDERED]),
    );
  });
}

/** Of like orders the earlier is served first; of like tenderloins the earlier is opened first. */
function symmetryRows(
  lp: LinearProgramme,
  demands: readonly Demand[],
  muscles: readonly Muscle[],
  all: readonly MuscleVariables[],
  served: readonly string[],
): void {
  for (const { orders } of demands) {
    for (const [i, { index, pieces }] of orders.entries()) {
      const next = orders.slice(i + 1).find((other) => other.pieces === pieces);
      if (next !== undefined)
        lp.row(
          [
            [served[next.index], 1],
            [served[index], -1],
          ],
          '<=',
          0,
        );
    }
  }
  for (const [j, { massKg }] of muscles.entries()) {
    const next = muscles.findIndex((other, i) => i > j && other.massKg === massKg);
    if (next > j)
      lp.row(
        [
          [all[next].opened, 1],
          [all[j].opened, -1],
        ],
        '<=',
        0,
      );
  }
}

function encoded(
  allotment: Allotment,
  all: readonly MuscleVariables[],
  served: readonly string[],
): Values {
  const values: Record<string, number> = {};
  for (const [index, name] of served.entries()) values[name] = allotment.served[index] ? 1 : 0;
  for (const [j, { whole, butt, tail, lots, tipsKg }] of allotment.muscles.entries()) {
    const variables = all[j];
    const set = (name: string | undefined, to: number): void => {
      if (name === undefined) throw new Error('the programme has no variable for this');
      values[name] = to;
    };
    if (whole !== undefined) set(variables.whole.get(whole), 1);
    if (butt !== undefined) set(variables.butt.get(butt), 1);
    if (tail !== undefined) set(variables.tail.get(tail), 1);
    for (const { demand, window, pieces } of lots) {
      const same = variables.lots.find(
        (lot) => lot.demand === demand && classOf(lot.window) === classOf(window),
      );
      set(same?.count, pieces);
    }
    set(variables.tipsKg, tipsKg);
    const cut = butt !== undefined || tail !== undefined || lots.length > 0 || tipsKg > 0;
    set(variables.opened, cut ? 1 : 0);
  }
  return values;
}

function decoded(
  values: Values,
  all: readonly MuscleVariables[],
  served: readonly string[],
): Allotment {
  const at = (name: string): number => values[name] ?? 0;
  const isOne = (name: string): boolean => at(name) > 0.5;
  const chosen = (among: ReadonlyMap<number, string>): number | undefined =>
    [...among].find(([, name]) => isOne(name))?.[0];
  const mass = (name: string): number => (at(name) > HAIR_KG ? at(name) : 0);
  return {
    served: served.map(isOne),
    muscles: all.map(({ whole, butt, tail, lots, shortKg, keepKg, tipsKg }): MuscleAllotment => {
      const uses = { whole: chosen(whole), butt: chosen(butt), tail: chosen(tail) };
      return {
        ...(uses.whole === undefined ? {} : { whole: uses.whole }),
        ...(uses.butt === undefined ? {} : { butt: uses.butt }),
        ...(uses.tail === undefined ? {} : { tail: uses.tail }),
        lots: lots.flatMap(({ demand, window, count }) => {
          const pieces = Math.round(at(count));
          return pieces === 0 ? [] : [{ demand, window, pieces }];
        }),
        shortKg: new Map([...shortKg].map(([name, kg]) => [name, mass(kg)])),
        keepKg: {
          butt: mass(keepKg.butt),
          centre: mass(keepKg.centre),
          tail: mass(keepKg.tail),
        },
        tipsKg: mass(tipsKg),
      };
    }),
  };
}
