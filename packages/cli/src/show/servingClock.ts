import type { Serving } from '../read/serving.js';
import type { Clock } from './clock.js';

/** {@link Clock} of a cook that ends at a known moment. */
export interface ServingClock extends Clock {
  /** The moment of a minute since the refrigerator, to the minute. */
  readonly momentOf: (minutes: number) => Date;
  /** The same as ISO 8601 with its offset: `2026-12-24T17:03:00+01:00`. */
  readonly isoOf: (minutes: number) => string;
}

const DAY = 'cccc d LLLL yyyy';

/**
 * Clock times back from serving, in the zone of serving. Minutes are real ones: where the clock is put forward or back between a step
 * and serving, the step's time shows it.
 *
 * @param servedMinutes - when the plates go out [min since the refrigerator]
 * @param firstMinutes - the first step [min since the refrigerator]
 */
export function servingClock(
  { at, named }: Serving,
  servedMinutes: number,
  firstMinutes: number,
): ServingClock {
  // whole minutes before serving, so that steps and serving agree on the minute
  const moment = (minutes: number): typeof at =>
    at.minus({ minutes: Math.round(servedMinutes - minutes) });
  const first = moment(firstMinutes);
  const daysBefore = Math.round(at.startOf('day').diff(first.startOf('day'), 'days').days);
  const date = first.toFormat(DAY, { locale: 'en-GB' });
  return {
    at: (minutes) => moment(minutes).toFormat('HH:mm'),
    daysBefore,
    ...(named ? { day: `${date}, ${at.zoneName}` } : {}),
    momentOf: (minutes) => moment(minutes).toJSDate(),
    isoOf: (minutes) => moment(minutes).toISO({ suppressMilliseconds: true }),
  };
}
