import { plainText, refuse } from './text.js';

const CLOCK = /^(\d{1,2}) ?(?:([:.h]) ?(\d\d)?)? ?(?:([ap])\.?m\.?)?$/;

/**
 * Reads a time of day: `18:30`, `18.30`, `18h30`, `18h`, `6:30pm`, `6.30 p.m.`, `6pm`. Without am or pm the day has 24 hours, so
 * `6:30` is in the morning.
 *
 * @param option - the option the text was given to, `--serve`
 * @returns minutes since midnight [min], 0 to 1439
 * @throws RoastError `not-a-number`, `missing-unit` for an hour alone, or `out-of-range` for an hour or minute no clock shows
 */
export function readClock(text: string, option: string): number {
  const reading = { option, text, accepted: 'a time of day, like 18:30 or 6:30pm' };
  const tidy = plainText(reading).toLowerCase();
  const [whole, hourText, separator, minuteText, half] = CLOCK.exec(tidy) ?? [];
  // Only the h of `18h` can stand without minutes: `18:` and `6.pm` are slips.
  if (
    whole === undefined ||
    (minuteText === undefined && (separator === ':' || separator === '.'))
  ) {
    const [, hours, minutes] = /^(\d|[01]\d|2[0-3])([0-5]\d)$/.exec(tidy) ?? [];
    const hint = hours === undefined ? undefined : `write ${hours}:${minutes}`;
    return refuse(reading, 'not-a-number', 'that is not a time of day', hint);
  }
  const hour = Number(hourText);
  const minute = Number(minuteText ?? 0);
  if (half === undefined && hour > 23) refuse(reading, 'out-of-range', 'a day has hours 0 to 23');
  if (separator === undefined && half === undefined) {
    const choices = hour >= 1 && hour <= 12 ? `${hour}am or ${hour}pm` : `${hour}:00`;
    refuse(reading, 'missing-unit', 'an hour alone can be anything', `write ${choices}`);
  }
  if (minute > 59) refuse(reading, 'out-of-range', 'an hour has minutes 00 to 59');
  if (half === undefined) return hour * 60 + minute;
  if (hour < 1 || hour > 12) refuse(reading, 'out-of-range', 'am and pm go with hours 1 to 12');
  return ((hour % 12) + (half === 'p' ? 12 : 0)) * 60 + minute;
}
