import { RoastError } from '../errors.js';
import {
  type Crust,
  cloneState,
  copyState,
  type Exposure,
  type HeatState,
  ledgerOf,
  STAGE_ONE,
  Stepper,
  uniformState,
  unsaidSurroundings,
  valueAtRadius,
} from '../heat/index.js';
import { bracketedRoot } from '../numerics/index.js';
import { checkCrust, checkOven } from './checkOptions.js';
import { checkStage } from './checkStage.js';
import { type Between, type History, type StageRecord, stationsAround } from './history.js';
import { HOUSEHOLD_OVEN, type OvenModel } from './oven.js';
import { type OvenMemory, type Phase, phasesOf } from './phases.js';
import { Recorder, type RowBlock } from './recorder.js';
import { bodyOf, type Resolution, type Roast, type RoastBody } from './roast.js';
import type { Point, Stage } from './stages.js';

/** How a cook is computed. */
export interface CookOptions extends Resolution {
  /** A body made beforehand, {@link linesOf} for one, in place of the one the resolution asks for. */
  readonly body?: RoastBody;
  /** Default {@link HOUSEHOLD_OVEN}; every field is needed, in the ranges of {@link OvenModel}. */
  readonly oven?: OvenModel;
  /**
   * Default {@link BEEF_CRUST}. Accepted: removable water 1 to 1000 kg/m³, resistances of 1000 to 1e12 Pa·s·m⁴/kg² to vapour and 0 to
   * 100 m⁴·K/(W·kg) to heat.
   */
  readonly crust?: Crust;
  /** Longest step [s], 0.05 to 120; default 20. On the counter three times that, up to a minute. */
  readonly longestStepS?: number;
  /** First step of every stretch [s]; default 1. */
  readonly firstStepS?: number;
  /** Keep the temperatures of all nodes in every row; default false. */
  readonly fields?: boolean;
}

/** Where a cook stands, to come back to. */
export interface Snapshot {
  readonly state: HeatState;
  /** @internal */
  readonly clock: Readonly<Clock>;
  readonly rows: number;
  readonly records: number;
}

/** The counters of a cook. */
interface Clock {
  atS: number;
  steps: number;
  /** Beginning of the running stage [s] and its first row. */
  stageS: number;
  stageRow: number;
  /** Which stretch of the stage runs, for how long [s], with which step next [s]. */
  phase: number;
  phaseS: number;
  nextStepS: number;
  /** Humidity of the closed oven [kg/kg], the evaporation it gathers [kg/s], and what it remembers from the stage before. */
  humidity: number;
  evaporation: number;
  memory: OvenMemory | undefined;
}

/** How to run a stage, beyond what the stage says itself. */
export interface Watch {
  /** Called after every step; return true to end the stage here. */
  readonly onStep?: () => boolean;
  /** Goes on with a stage in whose middle a restored snapshot was taken. */
  readonly resume?: boolean;
  /**
   * First and longest steps are so many times the cook's own, up to a minute; default 1. More is for trials, whose figures are rough.
   */
  readonly stride?: number;
}

const GROWTH = 1.2; // of successive steps
const LONGEST_STRIDE_S = 60;
const LONGEST_S = 24 * 3600; // a stage that has not met its condition by then never will
const PATIENCE_S = 1800; // a stage's condition is given this long before progress is judged
const SETTLED_K_PER_S = 2e-5; // a centre rising slower than 0.07 K an hour has come to rest
const SLIVER_S = 1e-6;
const CROSSING_K = 1e-7;

const exposure = (): Exposure => ({ side: unsaidSurroundings(), ends: unsaidSurroundings() });

/**
 * A cook in progress. It knows no stage by name: it asks each for its stretches of surroundings and steps through them, short
 * steps first. It can be saved and taken up again, which makes searching for the right moment to pull cheap.
 *
 * @example
 * const run = new CookRun(roast)
 * run.run(temper({ minutes: 30 }))
 * const before = run.save()
 * run.run(roastIn({ ovenC: 230, until: centreReaches(40) }))
 * const hotMinutes = run.atS / 60
 * run.restore(before)
 * run.run(roastIn({ ovenC: 150, until: centreReaches(40) }))
 * run.atS / 60 > hotMinutes // => true
 */
export class CookRun {
  readonly roast: Roast;
  readonly body: RoastBody;
  readonly state: HeatState;
  readonly #stepper: Stepper;
  readonly #oven: OvenModel;
  readonly #longestStepS: number;
  readonly #firstStepS: number;
  readonly #recorder: Recorder;
  readonly #records: StageRecord[] = [];
  readonly #spare: HeatState;
  readonly #first = exposure();
  readonly #middle = exposure();
  readonly #last = exposure();
  #clock: Clock = {
    atS: 0,
    steps: 0,
    stageS: 0,
    stageRow: 0,
    phase: 0,
    phaseS: 0,
    nextStepS: 0,
    humidity: 0,
    evaporation: 0,
    memory: undefined,
  };

  constructor(roast: Roast, options: CookOptions = {}) {
    this.roast = roast;
    this.body = options.body ?? bodyOf(roast, options);
    if (options.oven !== undefined) checkOven(options.oven);
    if (options.crust !== undefined) checkCrust(options.crust);
    this.#oven = options.oven ?? HOUSEHOLD_OVEN;
    this.#longestStepS = positive(options.longestStepS ?? 20, 'longestStepS', 0.05, 120);
    this.#firstStepS = Math.min(
      this.#longestStepS,
      positive(options.firstStepS ?? 1, 'firstStepS', 0.01, 120),
    );
    const { body } = this.body;
    this.#stepper = new Stepper(body, roast.meat, options.crust);
    this.state = uniformState(body, roast.meat, roast.startC);
    this.#spare = cloneState(this.state);
    this.#recorder = new Recorder(body.stations, body.mesh.shells + 1, options.fields ?? false);
  }

  /** Time since the refrigerator [s]. */
  get atS(): number {
    return this.#clock.atS;
  }

  /** Temperature of a point now [°C]. */
  temperatureOf(point: Point): number {
    return this.#between(this.#locate(point), point.offAxis ?? 0);
  }

  /** Mean temperature of the cross-section at a point now [°C]. */
  meanOf(point: Point): number {
    const { mesh } = this.body.body;
    const at = this.#locate(point);
    const mean = (station: number): number => {
      const base = station * (mesh.shells + 1);
      return mesh.share.reduce((sum, part, j) => sum + part * this.state.tempC[base + j], 0);
    };
    return mean(at.station) + at.part * (mean(at.next) - mean(at.station));
  }

  /** The same point, where "coldest" is replaced by the place that is coldest now. */
  fixed(point: Point): Point {
    if (point.atMm !== 'coldest') return point;
    return { ...point, atMm: 1000 * this.body.atM[this.#locate(point).station] };
  }

  #locate(point: Point): Between {
    if (point.atMm !== 'coldest') return stationsAround(this.body, point.atMm);
    const nodes = this.body.body.mesh.shells + 1;
    const { tempC } = this.state;
    let station = 0;
    for (let i = 1; i < this.body.body.stations; i++) {
      if (tempC[i * nodes] < tempC[station * nodes]) station = i;
    }
    return { station, next: station, part: 0 };
  }

  #between(at: Between, offAxis: number): number {
    const { mesh } = this.body.body;
    const nodes = mesh.shells + 1;
    const value = (station: number): number =>
      valueAtRadius(mesh, this.state.tempC, offAxis, station * nodes);
    const near = value(at.station);
    return at.part === 0 ? near : near + at.part * (value(at.next) - near);
  }

  /** Where the cook stands; go back to it with {@link CookRun.restore}. */
  save(): Snapshot {
    return {
      state: cloneState(this.state),
      clock: { ...this.#clock },
      rows: this.#recorder.count,
      records: this.#records.length,
    };
  }

  /** A copy of what was recorded since a snapshot, for {@link CookRun.restore}. */
  rowsSince(snapshot: Snapshot): RowBlock {
    return this.#recorder.block(snapshot.rows, this.#recorder.count);
  }

  /**
   * Goes back to a snapshot of this cook.
   *
   * @param path - rows recorded on the way to it, where other rows may stand in their place by now: `since` the snapshot they
   *   begin at
   */
  restore(snapshot: Snapshot, path?: { readonly since: Snapshot; readonly rows: RowBlock }): void {
    copyState(snapshot.state, this.state);
    if (path !== undefined) {
      const from = path.since.rows;
      this.#recorder.putBlock(from, path.rows, snapshot.rows - from);
    }
    this.#clock = { ...snapshot.clock };
    this.#recorder.count = snapshot.rows;
    this.#records.length = snapshot.records;
  }

  /**
   * Runs one stage to its end.
   *
   * @throws RoastError `unreachable` when the stage's temperature is never reached; the sentence says what the point tends to;
   *   `out-of-range` for a place beyond the roast, and as the makers for a stage written by hand
   */
  run(stage: Stage, watch: Watch = {}): void {
    checkStage(stage, this.roast);
    const clock = this.#clock;
    const resume = watch.resume ?? false;
    const stayed = stage.kind === 'roast' || stage.kind === 'oven-sear';
    const phases = phasesOf(stage, this.#oven, stayed ? clock.memory : undefined);
    if (!resume) {
      clock.stageS = clock.atS;
      clock.stageRow = this.#recorder.count;
      clock.phase = 0;
    }
    while (clock.phase < phases.length) {
      const phase = phases[clock.phase];
      if (!resume || clock.phaseS === 0) this.#begin(phase, watch.stride ?? 1);
      const ended = this.#runPhase(stage, phase, watch);
      clock.memory = phase.box?.memoryAt(clock.phaseS, clock.humidity);
      clock.phaseS = 0;
      clock.phase = ended ? phases.length : clock.phase + 1;
    }
    this.#records.push({
      stage,
      startS: clock.stageS,
      endS: clock.atS,
      firstRow: clock.stageRow,
      lastRow: this.#recorder.count - 1,
      endFieldC: this.state.tempC.slice(),
    });
  }

  #begin(phase: Phase, stride: number): void {
    const clock = this.#clock;
    clock.phaseS = 0;
    clock.nextStepS = Math.min(stride * this.#firstStepS, this.#longest(stride));
    clock.humidity = phase.box?.startHumidity ?? 0;
    if (clock.memory === undefined) clock.evaporation = 0;
    phase.expose(0, clock.humidity, this.#last.side, this.#last.ends);
    this.#record();
  }

  /** Longest step [s] when it may be so many times the usual one. */
  #longest(stride: number): number {
    return Math.max(this.#longestStepS, Math.min(stride * this.#longestStepS, LONGEST_STRIDE_S));
  }

  /** Steps through one stretch; true when the stage's condition or the watcher ended it. */
  #runPhase(stage: Stage, phase: Phase, { onStep, stride = 1 }: Watch): boolean {
    const clock = this.#clock;
    const longestStepS = this.#longest(Math.max(stride, phase.stride ?? 1));
    const goal = stage.kind !== 'pan-sear' && 'at' in stage.until ? stage.until : undefined;
    let value = goal === undefined ? 0 : this.temperatureOf(goal.at);
    if (goal !== undefined && value >= goal.reachesC - CROSSING_K) return true;
    let fastest = 0; // K/s, that the goal's point has risen in this stretch
    while (clock.phaseS < phase.seconds) {
      const left = phase.seconds - clock.phaseS;
      let stepS = clock.nextStepS < left - SLIVER_S ? clock.nextStepS : left;
      let reached = false;
      if (goal === undefined) this.#advance(phase, stepS);
      else {
        copyState(this.state, this.#spare);
        const { humidity, evaporation } = clock;
        const before = value;
        this.#advance(phase, stepS);
        value = this.temperatureOf(goal.at);
        reached = value >= goal.reachesC - CROSSING_K;
        if (reached)
          stepS = this.#shorten(phase, stepS, before, value, goal, humidity, evaporation);
        else {
          const rate = (value - before) / stepS;
          fastest = Math.max(fastest, rate);
          this.#expectProgress(phase, goal.reachesC, value, rate, fastest);
        }
      }
      // the end of a stretch is hit exactly, so that splitting a stage leaves no sliver
      clock.phaseS = stepS === left ? phase.seconds : clock.phaseS + stepS;
      clock.atS += stepS;
      clock.nextStepS = Math.min(longestStepS, GROWTH * clock.nextStepS);
      this.#record();
      if (reached || onStep?.() === true) return true;
    }
    return false;
  }

  /** Redoes the latest step with the length at which the goal is just reached; returns that length. */
  #shorten(
    phase: Phase,
    stepS: number,
    before: number,
    after: number,
    goal: { readonly reachesC: number; readonly at: Point },
    humidity: number,
    evaporation: number,
  ): number {
    let ranS = Number.NaN;
    const residualAt = (seconds: number): number => {
      ranS = seconds;
      copyState(this.#spare, this.state);
      this.#clock.humidity = humidity;
      this.#clock.evaporation = evaporation;
      this.#clock.steps--;
      this.#advance(phase, seconds);
      return this.temperatureOf(goal.at) - goal.reachesC;
    };
    const root = bracketedRoot(
      residualAt,
      0,
      before - goal.reachesC,
      stepS,
      after - goal.reachesC,
      CROSSING_K,
      12,
    );
    if (ranS !== root.x) residualAt(root.x);
    return root.x;
  }

  /** A middle that has not felt the heat yet rises slowly too, so slowness only counts after it has risen, or while it falls. */
  #expectProgress(
    phase: Phase,
    reachesC: number,
    nowC: number,
    rate: number,
    fastest: number,
  ): void {
    const { phaseS } = this.#clock;
    const settled =
      phase.restless === undefined &&
      phaseS > PATIENCE_S &&
      rate < SETTLED_K_PER_S &&
      (fastest > 10 * SETTLED_K_PER_S || rate < -SETTLED_K_PER_S);
    if (!settled && phaseS < LONGEST_S) return;
    throw new RoastError(
      `the meat never reaches ${reachesC.toFixed(1)} °C here: it tends to ${nowC.toFixed(1)} °C`,
      {
        code: 'unreachable',
        path: ['until', 'reachesC'],
        found: reachesC,
        accepted: `below ${nowC.toFixed(1)} °C, or more heat`,
      },
    );
  }

  #advance(phase: Phase, stepS: number): void {
    const clock = this.#clock;
    const { phaseS } = clock;
    const first = this.#first;
    const middle = this.#middle;
    const last = this.#last;
    // within the step the humidity is the one the latest evaporation leads to: held at its start, it would be first order
    const at = (s: number): number => humidityAfter(phase, clock.humidity, clock.evaporation, s);
    const [firstS, middleS] = [STAGE_ONE * stepS, 0.5 * stepS];
    phase.expose(phaseS + firstS, at(firstS), first.side, first.ends);
    phase.expose(phaseS + middleS, at(middleS), middle.side, middle.ends);
    phase.expose(phaseS + stepS, at(stepS), last.side, last.ends);
    this.#stepper.step(this.state, stepS, first, middle, last);
    clock.steps++;
    clock.evaporation = this.#stepper.evaporationKgPerS;
    clock.humidity = humidityAfter(phase, clock.humidity, clock.evaporation, stepS);
  }

  #record(): void {
    this.#recorder.add(
      this.#clock.atS,
      this.#last.side,
      this.state.tempC,
      this.state.outsideC,
      this.body.body.mesh.share,
    );
  }

  /** The history so far. */
  history(): History {
    const { state } = this;
    return {
      roast: this.roast,
      body: this.body,
      ...this.#recorder.series(),
      stages: [...this.#records],
      hottestC: state.hottestC.slice(),
      evaporatedKg: shareOut(this.body, state.evaporatedKg, state.endEvaporatedKg),
      drippedKg: shareOut(this.body, state.drippedKg, state.endDrippedKg),
      water: state.water.slice(),
      deficit: state.deficit.slice(),
      endDeficit: state.endDeficit.slice(),
      ledger: ledgerOf(state),
      steps: this.#clock.steps,
    };
  }
}

/** Humidity of a vented box after `seconds` of constant evaporation [kg/s]: exact. Unchanged where there is no box. */
function humidityAfter(
  { box }: Phase,
  humidity: number,
  evaporation: number,
  seconds: number,
): number {
  if (box === undefined) return humidity;
  const settled = Math.max(0, box.roomHumidity + evaporation / box.ventKgPerS);
  return settled + (humidity - settled) * Math.exp((-box.ventKgPerS * seconds) / box.airKg);
}

/** What the end faces lost comes from within about one radius of them: it is shared out there by weight. */
function shareOut(body: RoastBody, side: Float64Array, ends: Float64Array): Float64Array {
  const { edgeM, rawKg } = body;
  const { radiusM, stations } = body.body;
  const total = side.slice();
  for (const end of [0, 1] as const) {
    const tip = end === 0 ? edgeM[0] : edgeM[stations];
    const depthM = radiusM[end === 0 ? 0 : stations - 1];
    const near = rawKg.map((kg, i) => {
      const [from, to] =
        end === 0 ? [edgeM[i] - tip, edgeM[i + 1] - tip] : [tip - edgeM[i + 1], tip - edgeM[i]];
      return from >= depthM ? 0 : (kg * (Math.min(to, depthM) - from)) / (to - from);
    });
    const nearKg = near.reduce((a, b) => a + b, 0);
    for (let i = 0; i < stations; i++) total[i] += (ends[end] * near[i]) / nearKg;
  }
  return total;
}

function positive(found: number, field: string, low: number, high: number): number {
  if (found >= low && found <= high) return found;
  throw new RoastError(`${field} is ${found}; it can be ${low} to ${high} s`, {
    code: Number.isFinite(found) ? 'out-of-range' : 'not-a-number',
    path: [field],
    found,
    accepted: `${low} to ${high} s`,
  });
}
