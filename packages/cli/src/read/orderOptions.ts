import {
  CHILD_APPETITE,
  massText,
  ORDER_OVEN_C,
  type OrderRequest,
  PORTION_KG,
  type Prices,
  RoastError,
  SCALES,
  type ScaleName,
  TRIM_PARTS,
  type Trims,
  temperatureText,
  trimRule,
  type UnitSystem,
} from '@roastsim/core';
import { readGuestWishes } from './guestWishes.js';
import { pointingAt, readPlanOptions } from './planOptions.js';
import { readChoice } from './readChoice.js';
import { readCount } from './readCount.js';
import { readMass } from './readMass.js';
import { readMasses } from './readMasses.js';
import { readShare } from './readShare.js';
import type { ShopSettings } from './settings.js';
import { unitSystemOf } from './unitSystemOf.js';

/** Options of an order as they were typed. */
export interface OrderWords {
  readonly guests?: string;
  readonly children?: string;
  readonly appetite?: string;
  readonly portion?: string;
  readonly leftovers?: string;
  readonly stock?: string;
  readonly oven?: string;
  readonly doneness?: string;
  readonly scale?: string;
  readonly units?: string;
}

/** The same, read and checked, with what the shop's files say. */
export interface ReadOrder {
  readonly request: OrderRequest;
  readonly units: UnitSystem;
  /** Language of amounts of money: a BCP 47 tag. */
  readonly locale: string;
  /** What was not said and therefore assumed, in words. */
  readonly assumed: readonly string[];
}

const LOCALE = 'en-GB';

function unitsOf(words: OrderWords, settings: ShopSettings): UnitSystem {
  if (words.units !== undefined) return readChoice(words.units, ['metric', 'us'], '--units');
  if (settings.units !== undefined) return settings.units;
  const { portion, leftovers, stock, oven, doneness } = words;
  for (const typed of [portion, leftovers, stock, oven, doneness]) {
    const system = typed === undefined ? undefined : unitSystemOf(typed);
    if (system !== undefined) return system;
  }
  return 'metric';
}

/** A shop's own shares of what comes off. */
function trimsOf({ trims }: ShopSettings): Trims {
  if (trims === undefined) return {};
  const own: Trims = Object.fromEntries(
    TRIM_PARTS.flatMap((part) => {
      const said = trims[part];
      return said === undefined
        ? []
        : [[part, readShare(String(said), `--settings trims.${part}`)]];
    }),
  );
  pointingAt('--settings', {}, () => trimRule(own));
  return own;
}

function missingGuests(): never {
  const accepted = 'a number, or wishes like "3 rare, 4 medium-rare"';
  throw new RoastError(`--guests: how many eat is missing; accepted: ${accepted}`, {
    code: 'missing',
    path: ['--guests'],
    found: undefined,
    accepted,
  });
}

/**
 * Reads the options of an order. An option overrules the settings, the settings overrule the default.
 *
 * @param listed - prices of a price list; they overrule the settings' own
 * @throws RoastError naming the option, what was read and what is accepted
 */
export function readOrderOptions(
  words: OrderWords,
  settings: ShopSettings,
  listed?: Prices,
): ReadOrder {
  const units = unitsOf(words, settings);
  const assumed: string[] = [];
  const either = (key: 'portion' | 'oven' | 'scale'): string | undefined =>
    words[key] ?? settings[key];
  const scaleName =
    either('scale') === undefined
      ? 'kitchen'
      : readChoice(either('scale') ?? '', Object.keys(SCALES) as ScaleName[], '--scale');
  if (words.guests === undefined) missingGuests();
  const { count, wishes } = readGuestWishes(words.guests, SCALES[scaleName], '--guests');
  if (wishes.length > 0 && words.doneness !== undefined) {
    throw new RoastError('--doneness: the guests say it already; accepted: one of the two', {
      code: 'contradiction',
      path: ['--doneness'],
      found: words.doneness,
      accepted: 'one of the two',
    });
  }
  const children = words.children === undefined ? 0 : readCount(words.children, 500, '--children');
  if (words.appetite !== undefined && children === 0) {
    throw new RoastError('--appetite: no children eat; accepted: --appetite with --children', {
      code: 'contradiction',
      path: ['--appetite'],
      found: words.appetite,
      accepted: '--appetite with --children',
    });
  }
  const appetite =
    words.appetite === undefined ? CHILD_APPETITE : readShare(words.appetite, '--appetite');
  if (words.appetite === undefined && children > 0) assumed.push('a child eats half a portion');
  const portion = either('portion');
  const portionKg = portion === undefined ? PORTION_KG : readMass(portion, '--portion');
  if (portion === undefined) assumed.push(`portions of ${massText(PORTION_KG, units)} raw`);
  const oven = either('oven');
  if (oven === undefined) assumed.push(`an oven at ${temperatureText(ORDER_OVEN_C, units)}`);
  if (words.doneness === undefined && wishes.length === 0) assumed.push('medium-rare');
  assumed.push(
    'tied, a whole one with its tail folded under',
    '30 min on the counter first, preheated, no fan, 20 min of rest under loose foil',
  );

  const { request: cook } = readPlanOptions({
    weight: '1kg', // any: what is needed here is how it is cooked
    units,
    scale: scaleName,
    oven: oven ?? `${ORDER_OVEN_C}C`,
    ...(words.doneness === undefined ? {} : { doneness: words.doneness }),
  });
  const prices = listed ?? settings.priceList;
  return {
    request: {
      guests: count,
      children: Array.from({ length: children }, () => appetite),
      portionKg,
      ...(words.leftovers === undefined
        ? {}
        : { leftoversKg: readMass(words.leftovers, '--leftovers') }),
      ...(words.stock === undefined ? {} : { stockKg: readMasses(words.stock, '--stock') }),
      ...(prices === undefined ? {} : { prices }),
      cook,
      wishes,
      trims: trimsOf(settings),
      units,
    },
    units,
    locale: settings.locale ?? LOCALE,
    assumed,
  };
}
