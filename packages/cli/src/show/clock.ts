const DAY_MINUTES = 24 * 60;

/** Clock times of a cook. */
export interface Clock {
  /** Clock time, `17:03`, of a minute since the refrigerator. */
  readonly at: (minutes: number) => string;
  /** Whole days between the start and serving: 0 when both are on the same day. */
  readonly daysBefore: number;
  /** Day of the start and zone, in words, where they were named. */
  readonly day?: string;
}

/**
 * Clock times of a cook that ends when it is served, on a day of 24 hours; for a known day see `servingClock`.
 *
 * @param serveMinutes - serving time [minutes since midnight]
 * @param lengthMinutes - minutes from the refrigerator to serving
 */
export function clockFrom(serveMinutes: number, lengthMinutes: number): Clock {
  const startMinutes = serveMinutes - lengthMinutes;
  return {
    at: (minutes) => clockText(startMinutes + minutes),
    daysBefore: -Math.floor(Math.round(startMinutes) / DAY_MINUTES),
  };
}

/**
 * A time of day, `17:03`: everything printed keeps to the 24-hour clock, however the time was typed.
 *
 * @param minutes - since midnight; those of other days are taken into the day
 */
export function clockText(minutes: number): string {
  const rounded = Math.round(minutes);
  const ofDay = ((rounded % DAY_MINUTES) + DAY_MINUTES) % DAY_MINUTES;
  const two = (value: number): string => String(value).padStart(2, '0');
  return `${two(Math.floor(ofDay / 60))}:${two(ofDay % 60)}`;
}
