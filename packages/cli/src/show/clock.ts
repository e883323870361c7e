const DAY_MINUTES = 24 * 60;

/**
 * Clock times of a cook that ends when it is served.
 *
 * @param serveMinutes - serving time [minutes since midnight]
 * @param lengthMinutes - minutes from the refrigerator to serving
 * @returns clock time, `17:03`, of a minute since the refrigerator; the day before is marked `-1d`
 */
export function clockFrom(
  serveMinutes: number,
  lengthMinutes: number,
): (minutes: number) => string {
  return (minutes) => {
    const at = Math.round(serveMinutes - lengthMinutes + minutes);
    const days = Math.floor(at / DAY_MINUTES);
    const ofDay = at - days * DAY_MINUTES;
    const two = (value: number): string => String(value).padStart(2, '0');
    const clock = `${two(Math.floor(ofDay / 60))}:${two(ofDay % 60)}`;
    return days < 0 ? `${clock} ${days}d` : clock;
  };
}
