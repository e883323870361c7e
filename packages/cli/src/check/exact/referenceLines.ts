import {
  type CookOptions,
  CookRun,
  type Crust,
  centreReaches,
  type Roast,
  rest,
  roastIn,
  roundRoast,
  type Stage,
  searInPan,
  temper,
  waterBath,
} from '@roastsim/core';
import { published } from '../published.js';

/** Figures of one line at one moment; the keys are those of the table. */
export interface LineFigures {
  readonly axisC: number;
  readonly halfRadiusC: number;
  readonly frontC: number;
  readonly crustSideC: number;
  readonly deficitKgPerM2: number;
  readonly evaporatedKgPerM2: number;
  readonly drippedKgPerM2: number;
  readonly meanWaterKgPerKgRaw: number;
}
export type Figure = keyof LineFigures;
export const FIGURES = [
  'axisC',
  'halfRadiusC',
  'frontC',
  'crustSideC',
  'deficitKgPerM2',
  'evaporatedKgPerM2',
  'drippedKgPerM2',
  'meanWaterKgPerKgRaw',
] as const satisfies readonly Figure[];

interface Box {
  readonly equivalentLengthM: number;
}
interface ReferenceInput {
  readonly name: string;
  readonly kind: 'air' | 'contact' | 'bath' | 'fixed';
  readonly airC: number;
  readonly hWPerM2K: number;
  readonly box?: Box;
  readonly until: { readonly seconds?: number; readonly axisC?: number };
}
export interface ReferenceCase {
  readonly id: string;
  readonly title: string;
  readonly inputs: {
    readonly radiusM: number;
    readonly startC: number;
    readonly constant?: { readonly kWPerMK: number; readonly rhoCJPerM3K: number };
    readonly stages: readonly ReferenceInput[];
  };
  readonly stages: readonly {
    readonly name: string;
    readonly endSeconds: number;
    readonly estimatedError: Readonly<Record<Figure | 'endSeconds', number>>;
    readonly records: readonly (LineFigures & {
      readonly secondsInStage: number;
      readonly seconds: number;
    })[];
  }[];
  readonly peak?: {
    readonly axisC: number;
    readonly secondsAfterPull: number;
    readonly riseK: number;
  };
}

const table = published<{
  readonly constants: {
    readonly crust: {
      readonly removableWaterKgPerM3: number;
      readonly vapourResistancePaSM4PerKg2: number;
      readonly heatResistanceM4KPerWKg: number;
    };
  };
  readonly cases: readonly ReferenceCase[];
}>('reference-lines');

/** Cases of the table, by their letter. */
export const REFERENCE: Readonly<Record<string, ReferenceCase>> = Object.fromEntries(
  table.cases.map((one) => [one.id, one]),
);

/** The table's crust: the same constants, rounded. */
const CRUST: Crust = {
  removableWater: table.constants.crust.removableWaterKgPerM3,
  vapourPerDeficit: table.constants.crust.vapourResistancePaSM4PerKg2,
  heatPerDeficit: table.constants.crust.heatResistanceM4KPerWKg,
};

/** The stage that has the surroundings of one entry of the table; a pan sear is three entries and one stage. */
function stageOf({ name, airC, box, until }: ReferenceInput): Stage | undefined {
  const minutes = (until.seconds ?? 0) / 60;
  if (box !== undefined) {
    const goal = centreReaches(until.axisC ?? Number.NaN);
    return roastIn({ ovenC: airC, fan: name.includes('fan'), until: goal });
  }
  switch (name) {
    case 'temper':
      return temper({ minutes });
    case 'rest, tented':
      return rest({ minutes, tented: true });
    case 'rest, open':
      return rest({ minutes, tented: false });
    case 'water bath':
      return waterBath({ bathC: airC, until: centreReaches(until.axisC ?? Number.NaN) });
    case 'sear, before contact':
      return searInPan();
    case 'sear, contact':
    case 'sear, after contact':
      return undefined;
    default:
      throw new Error(`no stage for ${name}`);
  }
}

/** One line of the case's radius, as long as its oven's humidity wants it. */
function lineOf({ inputs }: ReferenceCase): Roast {
  const lengthM = inputs.stages.find((stage) => stage.box !== undefined)?.box?.equivalentLengthM;
  const round = roundRoast({
    startC: inputs.startC,
    lengthMm: 1000 * (lengthM ?? 0.3),
    diameters: [{ sizeMm: 2000 * inputs.radiusM }],
  });
  return { ...round, aspect: 1 };
}

export interface Sample extends LineFigures {
  readonly seconds: number;
}

/** A case cooked by this library as one line without axial exchange. */
export class ReferenceCook {
  readonly run: CookRun;
  /** Every step, and the beginning. */
  readonly samples: Sample[] = [];
  /** End of each stage since the beginning [s]. */
  readonly endS: number[] = [];

  constructor(of: ReferenceCase, options: CookOptions = {}) {
    this.run = new CookRun(lineOf(of), { stations: 1, axial: false, crust: CRUST, ...options });
    for (const input of of.inputs.stages) {
      const stage = stageOf(input);
      if (stage === undefined) continue;
      this.#take();
      this.run.run(stage, {
        onStep: () => {
          this.#take();
          return false;
        },
      });
      this.#take();
      this.endS.push(this.run.atS);
    }
  }

  #take(): void {
    const { state, body } = this.run;
    const seconds = this.run.atS;
    if (this.samples.at(-1)?.seconds === seconds) return;
    const { mesh, sideM2 } = body.body;
    const point = (offAxis: number): number => this.run.temperatureOf({ atMm: 0, offAxis });
    this.samples.push({
      seconds,
      axisC: point(0),
      halfRadiusC: point(0.5),
      frontC: point(1),
      crustSideC: state.outsideC[0],
      deficitKgPerM2: state.deficit[0],
      evaporatedKgPerM2: state.evaporatedKg[0] / sideM2[0],
      drippedKgPerM2: state.drippedKg[0] / sideM2[0],
      meanWaterKgPerKgRaw: mesh.share.reduce((sum, s, i) => sum + s * state.water[i], 0),
    });
  }

  /** A figure at a moment of the cook, by a cubic through the four nearest samples between `fromS` and `toS`. */
  at(figure: Figure, seconds: number, fromS: number, toS: number): number {
    const inside = this.samples.filter((s) => s.seconds >= fromS - 1e-6 && s.seconds <= toS + 1e-6);
    const upper = inside.findIndex((s) => s.seconds >= seconds - 1e-6);
    const first = Math.min(Math.max(upper - 2, 0), inside.length - 4);
    const four = inside.slice(first, first + 4);
    return four.reduce((sum, one) => {
      let weight = 1;
      for (const other of four) {
        if (other !== one) weight *= (seconds - other.seconds) / (one.seconds - other.seconds);
      }
      return sum + weight * one[figure];
    }, 0);
  }

  /** Highest axis temperature and its time, by a parabola through the three samples about it. */
  peak(): { readonly axisC: number; readonly seconds: number } {
    const top = this.samples.reduce((best, s, i, all) => (s.axisC > all[best].axisC ? i : best), 0);
    const [a, b, c] = this.samples.slice(top - 1, top + 2);
    const h = c.seconds - b.seconds;
    const slope = (c.axisC - a.axisC) / (2 * h);
    const bend = (c.axisC - 2 * b.axisC + a.axisC) / (h * h);
    return { seconds: b.seconds - slope / bend, axisC: b.axisC - slope ** 2 / (2 * bend) };
  }
}

/** How far a cook is from its case. */
export interface Gaps {
  /** Largest gap of each figure over all records of all stages; a record at a stage's end meets our own end. */
  readonly worst: Readonly<Record<Figure, number>>;
  /** Largest gap in the length of a stage, as a share of it. */
  readonly time: number;
  /** Gaps of the peak after the pull, in temperature and time; 0 where the case has none. */
  readonly peakK: number;
  readonly peakS: number;
}

/** Compares a cook with its case, stage by stage. */
export function gapsOf(of: ReferenceCase, cook: ReferenceCook): Gaps {
  const worst = Object.fromEntries(FIGURES.map((f) => [f, 0])) as Record<Figure, number>;
  let time = 0;
  let fromS = 0;
  let stage = 0;
  for (const { name, endSeconds, records } of of.stages) {
    const part = name === 'sear, before contact' || name === 'sear, contact'; // of one stage of ours
    const toS = part ? fromS + endSeconds : cook.endS[stage++];
    time = Math.max(time, Math.abs((toS - fromS) / endSeconds - 1));
    for (const record of records) {
      const atS = record === records.at(-1) ? toS : fromS + record.secondsInStage;
      for (const figure of FIGURES) {
        const gap = Math.abs(cook.at(figure, atS, fromS, toS) - record[figure]);
        worst[figure] = Math.max(worst[figure], gap);
      }
    }
    fromS = toS;
  }
  if (of.peak === undefined) return { worst, time, peakK: 0, peakS: 0 };
  const peak = cook.peak();
  const pullS = cook.endS[cook.endS.length - 2]; // the rest comes last
  return {
    worst,
    time,
    peakK: Math.abs(peak.axisC - of.peak.axisC),
    peakS: Math.abs(peak.seconds - pullS - of.peak.secondsAfterPull),
  };
}
