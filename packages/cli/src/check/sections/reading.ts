import { bullets, page, table } from '../markdown.js';
import { KINDS, type Section, VERDICTS } from '../row.js';
import { tallyOf } from '../tally.js';

/** What the verdicts mean, group by group: the limits stand in the sections' files beside their reasons. */
const LIMITS: readonly (readonly [id: string, pass: string, near: string, must: string])[] = [
  [
    'charts',
    'inside the window; a rise within 1.5 K',
    'a tenth outside; 3 K',
    'trade, all editions',
  ],
  ['losses', '2.5 points of raw weight', '5 points', ''],
  ['other-cuts', '10 %', '25 %', ''],
  ['carryover', '1.5 K; the logged curve 5 %', '3 K; 10 %', ''],
  ['ovens', '10 %', '25 %', ''],
  ['series', '0.05 % of the driving difference, spheres 0.1 %', 'twice that', 'all'],
  ['lines', 'stages 0.1 %; peak 0.05, axis 0.06, front 0.2 K; water 4 g/m²', 'twice that', 'all'],
  [
    'handbook',
    'whole series to the last digit and 0.05 %; as printed 5 %, baths 15 %',
    'five times that; 10 %, 30 %',
    'whole series',
  ],
  ['plans', 'time 0.5 %, temperature 0.15 °C', 'twice that', 'all'],
  [
    'properties',
    'measured 5 %; vectors to the last digit; steam 0.4 %',
    '10 %; tenfold; 1 %',
    'vectors, steam',
  ],
  ['lethality', 'not below the table, up to 17 % above', '25 % above; below is off', 'all'],
];

const titleOf = (sections: readonly Section[], id: string): string => {
  const found = sections.find((section) => section.id === id);
  if (found === undefined) throw new Error(`no section ${id}`);
  return `${found.title} (\`${id}\`)`;
};

/** What the page is, which of its numbers are tests at all, and how it all came out. */
export function readingPage(sections: readonly Section[]): string {
  const all = sections.flatMap((section) => section.rows());
  const total = tallyOf(all);
  return page(
    '# Validation',
    'Written by `roastsim check --markdown` (in a clone, `pnpm validation`) from the library, `data/published` and `data/reference`; a test fails when ' +
      'this page is stale. Do not edit it by hand. `roastsim check` prints every row of it on your own machine, and fails if one that must not be off is.',
    '## How to read this page',
    bullets(
      '**Fits** show nothing but that the fit worked. Three things were calibrated together on six tenderloin rows of the trade charts (425 °F; ' +
        "135, 145 and 150 °F): the greatest diameter of whole and centre cut for their weight, the crust's resistance to vapour, and the oven's vent flow. " +
        'The lethality line was fitted to the table it is compared with.',
      '**Checks** were in sight while the model was built, and the judgement behind its other constants may lean on them, though none was fitted to them: ' +
        'rises while standing, losses, the government charts, measured properties of beef.',
      '**Hold-outs** were never tuned on: other cuts, the rolled rib with its widths, reported times in fan and low ovens. They are never counted with the fits.',
      '**Exact** rows have an answer that is not in doubt: closed forms, printed equations, another program, a finer mesh. They speak for the arithmetic, not for meat.',
      'Charts are rounded to 5 or 15 minutes, pad for safety, and state neither diameter, pan nor where the thermometer stood. Being inside a window makes a ' +
        'model plausible, not right.',
      '"Front" is the evaporation front under the crust; temperatures differ in kelvin (K); a rise of 1 K is 1.8 °F. "Never" means that the temperature is not reached.',
    ),
    '## Verdicts',
    'A row is a **pass** when the figure here lies inside what is published, or outside it by no more than the first limit below; it is **near** up to the ' +
      'second, and **off** beyond it, or when the temperature is never reached. Where an input was not reported, the figure here is the span between two ' +
      'assumptions and its nearer end counts. The limits are judgement, as wide as the published figures are vague. Rows that must not be off (`!`) are those whose truth ' +
      'is not in doubt, and the fits, which guard against losing them.',
    table(
      ['group', 'pass', 'near', 'must not be off'],
      LIMITS.map(([id, ...limits]) => [titleOf(sections, id), ...limits]),
    ),
    table(
      ['', ...VERDICTS, 'of'],
      [
        ...KINDS.map((kind) => {
          const tally = tallyOf(all.filter((row) => row.kind === kind));
          return [kind, ...VERDICTS.map((verdict) => `${tally[verdict]}`), `${tally.rows}`];
        }),
        ...sections.map((section) => {
          const tally = tallyOf(section.rows());
          return [
            section.title,
            ...VERDICTS.map((verdict) => `${tally[verdict]}`),
            `${tally.rows}`,
          ];
        }),
        ['all', ...VERDICTS.map((verdict) => `${total[verdict]}`), `${total.rows}`],
      ],
    ),
    `Of ${total.must} rows that must not be off ${total.mustOff === 0 ? 'none is' : `${total.mustOff} are`}.`,
  );
}
