import path from 'node:path';
import { INPUTS, type InputName, type Prices, type PriorChanges } from '@roastsim/core';
import { z } from 'zod';
import { readBytes, readDataFile } from './dataFile.js';
import type { PlanWords } from './planOptions.js';
import { PRICES, pricesOf } from './prices.js';
import { lineOf } from './text.js';

/** A share of the weight, as `--appetite` reads it: `16%` or 0.16. */
const SHARE = z.union([z.string(), z.number()], 'a share: 16% or 0.16').optional();

const WIDEST = 30; // K; of a factor's logarithm the library takes no more than 1, and says so

function spreads(): Record<InputName, z.ZodNumber> {
  const entries = INPUTS.map((name) => [name, z.number().min(0).max(WIDEST)]);
  return Object.fromEntries(entries) as Record<InputName, z.ZodNumber>;
}
/** A text for one line of a card. */
const line = (least: number, most: number) =>
  z.string().transform(lineOf).pipe(z.string().min(least).max(most));

/** A shop's own settings, as its file says them. Quantities stay words: the options' readers read them. */
export const SETTINGS = z.strictObject({
  /** Name on top of every card. */
  name: line(1, 80).optional(),
  /** Lines of the address. */
  address: z.array(line(0, 80)).max(5).optional(),
  /** PNG or JPEG file, beside the settings file or with a full path. */
  logo: z.string().min(1).optional(),
  /** Line at the bottom of every card. */
  footer: line(0, 160).optional(),
  units: z.enum(['metric', 'us']).optional(),
  /** Language of dates and of numbers with units: a BCP 47 tag, `en-GB`. */
  locale: z
    .string()
    .refine((tag) => isLocale(tag), 'a language tag: en-GB, en-US, de-DE')
    .optional(),
  oven: z.string().optional(),
  portion: z.string().optional(),
  scale: z.string().optional(),
  paper: z.enum(['a5', 'a4', 'letter']).optional(),
  /** As in a price list of its own. */
  prices: PRICES.optional(),
  /** What comes off a whole untrimmed tenderloin, as shares of its weight. */
  trims: z.strictObject({ chain: SHARE, silverskin: SHARE, fat: SHARE, tips: SHARE }).optional(),
  /** Doubts this kitchen knows better: the spread of each, in the unit of docs/cards.md. */
  priors: z.strictObject(spreads()).partial().optional(),
});

/** What a settings file says. */
export type ShopSettings = Readonly<z.infer<typeof SETTINGS>> & {
  /** Bytes of the logo, read. */
  readonly logoFile?: Uint8Array;
  /** Prices for a kilogram. */
  readonly priceList?: Prices;
};

function isLocale(tag: string): boolean {
  try {
    return Intl.getCanonicalLocales(tag).length === 1;
  } catch {
    return false;
  }
}

const LONGEST_LOGO_BYTES = 5_000_000;

/**
 * Reads a settings file, YAML or JSON (which is YAML too).
 *
 * @throws RoastError `unreadable`, `unknown-name` (a key that does not exist, with the nearest), `out-of-range`
 */
export async function readSettings(file: string): Promise<ShopSettings> {
  const source = { file, option: '--settings', entry: 'setting' };
  const said = await readDataFile(source, SETTINGS);
  const settings = said.prices === undefined ? said : { ...said, priceList: pricesOf(said.prices) };
  if (settings.logo === undefined) return settings;
  const logo = path.resolve(path.dirname(file), settings.logo);
  const accepted = 'a PNG or JPEG file';
  const logoFile = await readBytes(logo, source, LONGEST_LOGO_BYTES, accepted, 'logo');
  return { ...settings, logoFile };
}

/** What the settings say about the doubts of a forecast. */
export const priorChanges = ({ priors }: ShopSettings): { readonly priors?: PriorChanges } =>
  priors === undefined
    ? {}
    : {
        priors: Object.fromEntries(
          Object.entries(priors).map(([name, spread]) => [name, { spread }]),
        ),
      };

/** Options with what the shop's settings add: an option overrules the file, the file overrules the default. */
export function withSettings<T extends PlanWords>(words: T, settings: ShopSettings): T {
  const heat = [words.oven, words.bath, words.stages].every((word) => word === undefined);
  return {
    ...words,
    ...(heat && settings.oven !== undefined ? { oven: settings.oven } : {}),
    ...(words.units === undefined && settings.units !== undefined ? { units: settings.units } : {}),
    ...(words.scale === undefined && settings.scale !== undefined ? { scale: settings.scale } : {}),
    ...(words.portion === undefined && settings.portion !== undefined
      ? { portion: settings.portion }
      : {}),
  };
}
