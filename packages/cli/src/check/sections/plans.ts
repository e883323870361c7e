import { DEFAULT_SHELLS, DEFAULT_STATIONS } from '@roastsim/core';
import { once } from '../cook.js';
import { fixed, page, signed, table } from '../markdown.js';
import { PLAN_CASES } from '../plans/cases.js';
import { PLAN_FIGURES, type PlanFigure } from '../plans/figures.js';
import { PLAN_REFERENCES } from '../plans/reference.js';
import { solvedByDefault } from '../plans/solve.js';
import {
  type Allowance,
  distance,
  just,
  type Row,
  type Section,
  share,
  verdictOf,
} from '../row.js';
import { VERDICT_HEAD, verdictText } from '../rowWords.js';

/** What is asked of the default mesh, steps and search. */
const PLAN_LIMITS = { timeShare: 0.005, temperatureK: 0.15 } as const;
const TIME: Allowance = share(PLAN_LIMITS.timeShare, 2 * PLAN_LIMITS.timeShare);
const TEMPERATURE: Allowance = distance(PLAN_LIMITS.temperatureK, 2 * PLAN_LIMITS.temperatureK);

const WORDS: Readonly<Record<PlanFigure, string>> = {
  pullMinutes: 'minutes to the pull',
  pullC: 'centre at the pull',
  coldestC: 'coldest axis at the pull',
  peakC: 'peak',
  endC: 'centre at the end',
  firstSliceC: 'first slice',
  lastSliceC: 'last slice',
};

/** One plan: its time, and the temperature that is furthest off. */
interface PlanLine {
  readonly words: string;
  readonly time: Row;
  readonly worst: Row;
  readonly worstFigure: PlanFigure;
  /** How far the references themselves may be off [min, °C]. */
  readonly timeUncertainty: number;
  readonly worstUncertainty: number;
}

const [, ...TEMPERATURES] = PLAN_FIGURES;

/** Every plan at the defaults, beside its reference. */
const planLines = once((): PlanLine[] =>
  PLAN_CASES.map((one) => {
    const { figures } = PLAN_REFERENCES[one.id];
    const found = solvedByDefault(one);
    const gap = (name: PlanFigure): number => found[name] - figures[name].value;
    const worstFigure = TEMPERATURES.reduce((worst, name) =>
      Math.abs(gap(name)) > Math.abs(gap(worst)) ? name : worst,
    );
    const row = (name: PlanFigure, unit: string, allow: Allowance): Row => ({
      what: `${one.words}: ${WORDS[name]}`,
      kind: 'exact',
      must: true,
      published: just(figures[name].value),
      model: just(found[name]),
      unit,
      decimals: 2,
      allow,
      source: `data/reference/plans.json: ${one.id}`,
    });
    return {
      words: one.words,
      time: row('pullMinutes', 'min', TIME),
      worst: row(worstFigure, '°C', TEMPERATURE),
      worstFigure,
      timeUncertainty: figures.pullMinutes.uncertainty,
      worstUncertainty: figures[worstFigure].uncertainty,
    };
  }),
);

const ofRow = ({ published, model }: Row): readonly [reference: number, found: number] => [
  published[0],
  model?.[0] ?? Number.NaN,
];
const timeOff = ({ time }: PlanLine): number => {
  const [reference, found] = ofRow(time);
  return found / reference - 1;
};
const worstOff = ({ worst }: PlanLine): number => {
  const [reference, found] = ofRow(worst);
  return found - reference;
};
const largest = (by: (line: PlanLine) => number): PlanLine =>
  planLines().reduce((worst, line) => (Math.abs(by(line)) > Math.abs(by(worst)) ? line : worst));

/** How many plans pass in both. */
const within = (): number =>
  planLines().filter(({ time, worst }) => verdictOf(time) === 'pass' && verdictOf(worst) === 'pass')
    .length;

/** The temperature of all plans that is furthest off, and how many plans are within what is asked. */
export const worstOfPlans = () => {
  const line = largest(worstOff);
  return {
    plans: PLAN_CASES.length,
    within: within(),
    askedK: PLAN_LIMITS.temperatureK,
    offK: Math.abs(worstOff(line)),
    words: `${line.words}, ${WORDS[line.worstFigure]}`,
  };
};

function planPage(): string {
  const [slowest, hottest] = [largest(timeOff), largest(worstOff)];
  return page(
    '### Mesh, steps and search',
    `${PLAN_CASES.length} plans as a person gets them (${DEFAULT_STATIONS} stations, ${DEFAULT_SHELLS} shells, steps up to 20 s, the search for the pull stopped ` +
      'within 0.02 K) beside the same plans free of all three: solved with 40, 80 and 160 stations, 32, 64 and 128 shells and steps up to 20, 10 and 5 s, the pull ' +
      'found to 1e-5 K, extrapolated after Richardson. `data/reference/plans.json` holds the references, how they were made, and how far they may be off ' +
      'themselves (± here); the tables of properties are not refined. Half an hour out and 20 min of rest unless said. Asked: the time within ' +
      `${fixed(100 * PLAN_LIMITS.timeShare, 1)} %, every temperature within ${fixed(PLAN_LIMITS.temperatureK, 2)} °C; twice that is near. Of six temperatures ` +
      '(centre and coldest axis at the pull, peak, end of the cook, first and last slice) the one furthest off is shown.',
    table(
      [
        'plan',
        'pull min',
        '±',
        'here',
        'off %',
        VERDICT_HEAD,
        'furthest off',
        '°C',
        '±',
        'off K',
        VERDICT_HEAD,
      ],
      planLines().map((line) => [
        line.words,
        fixed(line.time.published[0], 2),
        fixed(line.timeUncertainty, 3),
        fixed(line.time.model?.[0], 2),
        signed(100 * timeOff(line), 2),
        verdictText(line.time),
        WORDS[line.worstFigure],
        fixed(line.worst.published[0], 2),
        fixed(line.worstUncertainty, 3),
        signed(worstOff(line), 3),
        verdictText(line.worst),
      ]),
    ),
    `${within()} of ${PLAN_CASES.length} plans are within both limits. At worst the time is off by ${signed(100 * timeOff(slowest), 2)} % (${slowest.words}), a temperature by ${signed(worstOff(hottest), 2)} K ` +
      `(${hottest.words}, ${WORDS[hottest.worstFigure]}). Next to what the model itself may be off, these errors are nothing.`,
  );
}

/** What the default mesh, steps and search cost. */
export const planSection: Section = {
  id: 'plans',
  title: 'Thirty plans against refined ones: mesh, steps and search',
  against: 'refined',
  rows: () => planLines().flatMap(({ time, worst }) => [time, worst]),
  page: planPage,
};
