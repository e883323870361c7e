import { massText, type UnitSystem } from '@roastsim/core';

/** What the day sheet says of a roast, as its card says it. */
export interface RoastLine {
  /** Units the card speaks. */
  readonly units: UnitSystem;
  readonly weightKg: number;
  /** `whole`, `centre`, `butt`, `tail` or `other`. */
  readonly cut: string;
  /** Number of ties; 0 when it is not tied. */
  readonly ties: number;
  /** `230 °C, fan`, `bath 58 °C`. */
  readonly oven: string;
  /** Minutes a timer is set to. */
  readonly minutes: number;
  /** `50 °C`. */
  readonly pull: string;
  /** `medium-rare: 56 °C in the middle`. */
  readonly wanted: string;
  /** `18:30`. */
  readonly serve?: string;
}

/** One line of the day sheet. */
export interface DayLine extends RoastLine {
  readonly row: number;
  /** Name of the card's file. */
  readonly file: string;
  readonly name?: string;
  /** ISO 8601 without a zone: `2026-12-24` or `2026-12-24T10:30`. */
  readonly pickUp?: string;
  readonly note?: string;
}

/** How much of one cut is on the sheet, or of all cuts together. */
export interface Total {
  /** Name of the cut; `all` for the last one. */
  readonly cut: string;
  readonly count: number;
  readonly weightKg: number;
}

/** Orders of one day, the earliest first. */
export interface Day {
  /** ISO 8601; `undefined` for orders without a pick-up. */
  readonly date: string | undefined;
  readonly lines: readonly DayLine[];
}

/** A day sheet as data. */
export interface DaySheet {
  readonly days: readonly Day[];
  readonly totals: readonly Total[];
  /** Rows of the orders file that are not on the sheet. */
  readonly missing: readonly number[];
  /** Whether weights are told in one system or in both. */
  readonly units: UnitSystem | 'both';
}

const CUTS = ['whole', 'centre', 'butt', 'tail', 'other'];

/** Sorts orders by pick-up, and by their rows where that is the same; those without one come last. */
export function sorted(lines: readonly DayLine[]): readonly DayLine[] {
  const last = '\uffff';
  return lines.toSorted((a, b) => {
    const [left, right] = [a.pickUp ?? last, b.pickUp ?? last];
    return left === right ? a.row - b.row : left < right ? -1 : 1;
  });
}

/** Puts a day sheet together. */
export function daySheet(lines: readonly DayLine[], missing: readonly number[]): DaySheet {
  const days: { date: string | undefined; lines: DayLine[] }[] = [];
  for (const line of sorted(lines)) {
    const date = line.pickUp?.slice(0, 10);
    const day = days.at(-1);
    if (day === undefined || day.date !== date) days.push({ date, lines: [line] });
    else day.lines.push(line);
  }
  const [first, ...others] = new Set(lines.map(({ units }) => units));
  return {
    days,
    totals: totalsOf(lines),
    missing,
    units: others.length > 0 ? 'both' : (first ?? 'metric'),
  };
}

function totalsOf(lines: readonly DayLine[]): Total[] {
  const total = (cut: string, of: readonly DayLine[]): Total => ({
    cut,
    count: of.length,
    weightKg: of.reduce((sum, { weightKg }) => sum + weightKg, 0),
  });
  const cuts = CUTS.map((name) =>
    total(
      name,
      lines.filter(({ cut }) => cut === name),
    ),
  );
  return [...cuts.filter(({ count }) => count > 0), total('all', lines)];
}

/** A weight in the units of the sheet: `12.40 kg (27 lb 5 oz)` where both are spoken. */
export const totalText = (weightKg: number, units: DaySheet['units']): string =>
  units === 'both'
    ? `${massText(weightKg, 'metric')} (${massText(weightKg, 'us')})`
    : massText(weightKg, units);

/** Time of day of a pick-up; empty when only the day is known. */
export const timeOf = (pickUp: string | undefined): string => pickUp?.slice(11) ?? '';

/** `Thursday 24 December 2026`; a day has no time zone here. */
export const dayText = (date: string, locale: string): string =>
  new Intl.DateTimeFormat(locale, { dateStyle: 'full', timeZone: 'UTC' }).format(
    new Date(`${date}T00:00:00Z`),
  );

/** Whether data from outside is a {@link RoastLine}. */
export function isRoastLine(value: unknown): value is RoastLine {
  if (typeof value !== 'object' || value === null) return false;
  const line: Partial<Record<keyof RoastLine, unknown>> = value;
  return (
    (line.units === 'metric' || line.units === 'us') &&
    (['weightKg', 'ties', 'minutes'] as const).every((key) => Number.isFinite(line[key])) &&
    (['cut', 'oven', 'pull', 'wanted'] as const).every((key) => typeof line[key] === 'string') &&
    (line.serve === undefined || typeof line.serve === 'string')
  );
}
