import type { Colors } from 'picocolors/types.js';
import { COLUMNS } from '../show/wrap.js';
import { type Row, type Section, VERDICTS, type Verdict, verdictOf } from './row.js';
import { modelText, publishedText } from './rowWords.js';
import { type Tally, tallyOf } from './tally.js';

const VERDICT_WIDTH = 5; // with the mark of a row that must pass
const KIND_WIDTH = 8;
const FIGURE_WIDTH = 11;
const UNIT_WIDTH = 10;
const WHAT_WIDTH = COLUMNS - VERDICT_WIDTH - KIND_WIDTH - 2 * FIGURE_WIDTH - UNIT_WIDTH - 5;

/** Words in lines no wider than the column they stand in; a word that is wider is cut. */
function filled(text: string, width: number): string[] {
  const lines: string[] = [];
  let line = '';
  for (let word of text.split(' ')) {
    if (line !== '' && line.length + 1 + word.length > width) {
      lines.push(line);
      line = '';
    }
    for (; word.length > width; word = word.slice(width)) lines.push(word.slice(0, width));
    line = line === '' ? word : `${line} ${word}`;
  }
  return [...lines, line];
}

const line = (cells: {
  readonly verdict: string;
  readonly kind: string;
  readonly what: string;
  readonly published: string;
  readonly here: string;
  readonly unit: string;
}): string =>
  [
    cells.verdict.padEnd(VERDICT_WIDTH),
    cells.kind.padEnd(KIND_WIDTH),
    cells.what.padEnd(WHAT_WIDTH),
    cells.published.padStart(FIGURE_WIDTH),
    cells.here.padStart(FIGURE_WIDTH),
    cells.unit,
  ]
    .join(' ')
    .trimEnd();

const HEAD = line({
  verdict: '',
  kind: '',
  what: '',
  published: 'published',
  here: 'here',
  unit: '',
});

function rowLines(row: Row, painted: (verdict: Verdict, text: string) => string): string[] {
  const verdict = verdictOf(row);
  const [first, ...others] = filled(row.what, WHAT_WIDTH);
  const text = line({
    verdict: `${verdict}${row.must ? '!' : ''}`,
    kind: row.kind,
    what: first,
    published: publishedText(row),
    here: modelText(row),
    unit: row.unit,
  });
  const under = ' '.repeat(VERDICT_WIDTH + KIND_WIDTH + 2);
  return [
    painted(verdict, text.slice(0, VERDICT_WIDTH)) + text.slice(VERDICT_WIDTH),
    ...others.map((other) => under + other),
  ];
}

const tallyText = (tally: Tally): string =>
  VERDICTS.map((verdict) => `${tally[verdict]} ${verdict}`).join(', ');

/** Every row of the sections, grouped, within 80 columns; how it came out stands last. */
export function checkText(sections: readonly Section[], colors: Colors): string {
  const paint = { pass: colors.green, near: colors.yellow, off: colors.red } as const;
  const painted = (verdict: Verdict, text: string): string => paint[verdict](text);
  const groups = sections.map((section) => {
    const rows = section.rows();
    return [
      colors.bold(`${section.title} (${section.id})`),
      HEAD,
      ...rows.flatMap((row) => rowLines(row, painted)),
      '',
    ];
  });
  const rows = sections.flatMap((section) => section.rows());
  const total = tallyOf(rows);
  const holdOuts = tallyOf(rows.filter(({ kind }) => kind === 'hold-out'));
  const width = Math.max(...sections.map(({ id }) => id.length));
  return [
    ...groups.flat(),
    ...sections.map(
      (section) => `${section.id.padEnd(width)}  ${tallyText(tallyOf(section.rows()))}`,
    ),
    '',
    `${total.rows} rows: ${tallyText(total)}.`,
    ...(holdOuts.rows === 0
      ? []
      : [`Of these ${holdOuts.rows} hold-outs, never tuned on: ${tallyText(holdOuts)}.`]),
    total.mustOff === 0
      ? `None of the ${total.must} rows that must pass (!) is off.`
      : colors.red(`OFF: ${total.mustOff} of the ${total.must} rows that must pass (!).`),
    'pass, near, off and the kinds: docs/validation.md, or --markdown.',
    '',
  ].join('\n');
}
