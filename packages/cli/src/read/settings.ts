import { readFile } from 'node:fs/promises';
import path from 'node:path';
import { INPUTS, type InputName, type PriorChanges, RoastError } from '@roastsim/core';
import { parse, YAMLParseError } from 'yaml';
import { z } from 'zod';
import { nearest } from './nearest.js';
import type { PlanWords } from './planOptions.js';
import { printable } from './text.js';

const WIDEST = 100; // K; a factor's logarithm never needs more than 2, and more only says "no idea"

function spreads(): Record<InputName, z.ZodNumber> {
  const entries = INPUTS.map((name) => [name, z.number().min(0).max(WIDEST)]);
  return Object.fromEntries(entries) as Record<InputName, z.ZodNumber>;
}

/** A shop's own settings, as its file says them. Quantities stay words: the options' readers read them. */
const SETTINGS = z.strictObject({
  /** Name on top of every card. */
  name: z.string().min(1).max(80).optional(),
  /** Lines of the address. */
  address: z.array(z.string().max(80)).max(5).optional(),
  /** PNG or JPEG file, beside the settings file or with a full path. */
  logo: z.string().min(1).optional(),
  /** Line at the bottom of every card. */
  footer: z.string().max(160).optional(),
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
  /** Doubts this kitchen knows better: the spread of each, in the unit of docs/cards.md. */
  priors: z.strictObject(spreads()).partial().optional(),
});

/** What a settings file says. */
export type ShopSettings = Readonly<z.infer<typeof SETTINGS>> & {
  /** Bytes of the logo, read. */
  readonly logoFile?: Uint8Array;
};

function isLocale(tag: string): boolean {
  try {
    return Intl.getCanonicalLocales(tag).length === 1;
  } catch {
    return false;
  }
}

const OPTION = '--settings';
const LONGEST_BYTES = 1_000_000;
const LONGEST_LOGO_BYTES = 5_000_000;

function refuse(
  file: string,
  code: RoastError['code'],
  fault: string,
  accepted: string,
  field?: string,
): never {
  throw new RoastError(
    `${OPTION}: read "${printable(file)}"; ${field === undefined ? '' : `${field}: `}${fault}; accepted: ${accepted}`,
    { code, path: field === undefined ? [OPTION] : [OPTION, field], found: file, accepted },
  );
}

/**
 * Reads a settings file, YAML or JSON (which is YAML too).
 *
 * @throws RoastError `unreadable`, `unknown-name` (a key that does not exist, with the nearest), `out-of-range`
 */
export async function readSettings(file: string): Promise<ShopSettings> {
  const text = await readText(file, file, LONGEST_BYTES, 'a readable YAML or JSON file').then(
    (bytes) => new TextDecoder().decode(bytes),
  );
  let data: unknown;
  try {
    data = parse(text) ?? {};
  } catch (error) {
    if (!(error instanceof YAMLParseError)) throw error;
    const line = error.linePos?.[0].line ?? 1;
    refuse(file, 'unreadable', `line ${line} is not YAML`, 'YAML or JSON');
  }
  const result = SETTINGS.safeParse(data);
  if (!result.success) explain(file, result.error);
  const settings = result.data;
  if (settings.logo === undefined) return settings;
  const logo = path.resolve(path.dirname(file), settings.logo);
  const logoFile = await readText(logo, file, LONGEST_LOGO_BYTES, 'a PNG or JPEG file', 'logo');
  return { ...settings, logoFile };
}

async function readText(
  file: string,
  settingsFile: string,
  most: number,
  accepted: string,
  field?: string,
): Promise<Uint8Array> {
  const bytes = await readFile(file).catch(() =>
    refuse(settingsFile, 'unreadable', `${printable(file)} cannot be read`, accepted, field),
  );
  if (bytes.length > most) {
    refuse(settingsFile, 'out-of-range', `${printable(file)} is too large`, accepted, field);
  }
  return bytes;
}

function explain(file: string, error: z.ZodError): never {
  const [issue] = error.issues;
  const keys = issue.path[0] === 'priors' ? [...INPUTS] : Object.keys(SETTINGS.shape);
  if (issue.code === 'unrecognized_keys') {
    const [key] = issue.keys;
    const near = nearest(key, keys);
    const hint = near === undefined ? '' : ` (did you mean ${near}?)`;
    refuse(file, 'unknown-name', `there is no setting "${printable(key)}"${hint}`, keys.join(', '));
  }
  const field = issue.path.map(String).join('.') || undefined;
  const wish = issue.message.replace(/^Invalid (input|option): /, '');
  refuse(file, 'out-of-range', 'that does not fit', wish, field);
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
  const heat = words.oven === undefined && words.bath === undefined;
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
