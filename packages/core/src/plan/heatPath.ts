import type { CookRun, Point, RowBlock, Snapshot, Until } from '../cook/index.js';
import type { OwnPlanRequest } from './plan.js';

/**
 * One heat stage, run as far as it was ever needed, with the places to go back to: any number of pulls cost one oven. The cook
 * must stand at the beginning of the stage.
 */
export class HeatPath {
  readonly #run: CookRun;
  readonly #heat: OwnPlanRequest['heat'];
  readonly #point: Point;
  readonly #keepAboveC: number;
  readonly #startS: number;
  readonly #kept: Snapshot[];
  /** What was recorded from the beginning to the farthest place. */
  #rows: RowBlock;

  /** @param keepAboveC - places are kept from where the point is above this [°C] */
  constructor(run: CookRun, heat: OwnPlanRequest['heat'], point: Point, keepAboveC: number) {
    this.#run = run;
    this.#heat = heat;
    this.#point = point;
    this.#keepAboveC = keepAboveC;
    this.#startS = run.atS;
    this.#kept = [run.save()];
    this.#rows = run.rowsSince(this.#kept[0]);
  }

  /** Runs on from the farthest place until the point reaches `tempC` or `enough` says so; returns the time in the stage [s]. */
  until(tempC: number, enough: (atS: number) => boolean): number {
    this.#goOn(this.#kept.length - 1, { reachesC: tempC, at: this.#point }, enough);
    return this.#run.atS - this.#startS;
  }

  /** Ends the stage `pullS` seconds after it began. */
  pullAt(pullS: number): void {
    let index = this.#kept.length - 1;
    while (index > 0 && this.#kept[index].clock.atS - this.#startS > pullS) index--;
    this.#goOn(index, { minutes: pullS / 60 }, () => false);
  }

  #goOn(index: number, until: Until, enough: (atS: number) => boolean): void {
    const run = this.#run;
    const farthestS = this.#kept[this.#kept.length - 1].clock.atS;
    run.restore(this.#kept[index], { since: this.#kept[0], rows: this.#rows });
    run.run(
      { ...this.#heat, until },
      {
        resume: index > 0,
        onStep: () => {
          if (run.atS > farthestS && run.temperatureOf(this.#point) > this.#keepAboveC) {
            this.#kept.push(run.save());
          }
          return enough(run.atS - this.#startS);
        },
      },
    );
    if (this.#kept[this.#kept.length - 1].clock.atS > farthestS) {
      this.#rows = run.rowsSince(this.#kept[0]);
    }
  }
}
