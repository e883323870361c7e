import { type Part, readParts } from './parts.js';
import { quantityOf } from './quantity.js';
import { plainText, type Reading, refuse } from './text.js';
import { duration, unitNamed } from './units.js';

/**
 * Reads a stretch of time: `25min`, `1h`, `1h20`, `1h 20min`, `1.5h`, `90s`, `0min`. `1:20` is refused: it is as often an hour
 * and twenty minutes as a minute and twenty seconds.
 *
 * @param option - the option the text was given to, `--rest`
 * @returns time [min], 0 or more
 * @throws RoastError `not-a-number`, `missing-unit` (`1:20` too), `wrong-unit`, `contradiction` (parts that do not go
 * together), or `out-of-range` below 0
 */
export function readDuration(text: string, option: string): number {
  const reading = {
    option,
    text,
    accepted: 'a time in h, min or s, like 25min, 1h20 or 1.5h',
  };
  return durationIn(plainText(reading), reading);
}

/**
 * {@link readDuration} for a piece of a longer text, which errors show whole.
 *
 * @param tidy - the piece, as plain text
 */
export function durationIn(tidy: string, reading: Reading): number {
  refuseColon(tidy, reading);
  const minutes = quantityOf(withMinutes(readParts(tidy, reading), reading), duration, reading);
  if (minutes < 0) refuse(reading, 'out-of-range', 'a time cannot be less than 0');
  return minutes;
}

function refuseColon(tidy: string, reading: Reading): void {
  const [, first, second, third] = /^(\d+):(\d\d)(?::(\d\d))?$/.exec(tidy) ?? [];
  if (first === undefined || second === undefined) return;
  if (third !== undefined) {
    const hint = `write ${Number(first)}h ${Number(second)}min ${Number(third)}s`;
    refuse(reading, 'missing-unit', 'a time with colons has no units', hint);
  }
  refuse(
    reading,
    'missing-unit',
    'that can be read in two ways',
    `write ${Number(first)}h ${Number(second)}min or ${Number(first)}min ${Number(second)}s`,
  );
}

/** Gives the minutes of `1h20` their unit; a single digit there, as in `1h5`, may as well be meant as 1.5 h. */
function withMinutes(parts: readonly Part[], reading: Reading): readonly Part[] {
  const [hours, minutes] = parts;
  if (hours === undefined || minutes === undefined || parts.length > 2) return parts;
  if (minutes.unitText !== '' || unitNamed(hours.unitText, duration)?.symbol !== 'h') return parts;
  if (/^\d$/.test(minutes.numberText)) {
    const [whole, rest] = [hours.numberText, minutes.numberText];
    const hint = `write ${whole}h ${rest}min or ${whole}.${rest}h`;
    refuse(reading, 'missing-unit', 'that can be read in two ways', hint);
  }
  return /^\d\d$/.test(minutes.numberText) ? [hours, { ...minutes, unitText: 'min' }] : parts;
}
