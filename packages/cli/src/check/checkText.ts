import type { Colors } from 'picocolors/types.js';
import { COLUMNS } from '../show/wrap.js';
import { type Row, type Section, VERDICTS, type Verdict, verdictOf } from './row.js';
import { modelText, PUBLISHED, publishedText } from './rowWords.js';
import { type Tally, tallyOf } from './tally.js';

const VERDICT_WIDTH = 5; // with the mark of a row that must not be off
const KIND_WIDTH = 8;
const UNDER = ' '.repeat(VERDICT_WIDTH + KIND_WIDTH + 2);

/** Widths of a group's columns, so that the words get whatever the figures leave. */
interface Widths {
  readonly what: number;
  readonly published: number;
  readonly here: number;
}

function widthsOf(rows: readonly Row[], against: string): Widths {
  const widest = (texts: readonly string[]): number => Math.max(...texts.map((t) => t.length));
  const published = widest([against, ...rows.map(publishedText)]);
  const here = widest(['here', ...rows.map(modelText)]);
  const unit = widest(rows.map((row) => row.unit));
  return { published, here, what: COLUMNS - UNDER.length - published - here - unit - 3 };
}

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

const line = (
  { what, published, here }: Widths,
  verdict: string,
  kind: string,
  words: string,
  figures: readonly [published: string, here: string, unit: string],
): string =>
  [
    verdict.padEnd(VERDICT_WIDTH),
    kind.padEnd(KIND_WIDTH),
    words.padEnd(what),
    figures[0].padStart(published),
    figures[1].padStart(here),
    figures[2],
  ]
    .join(' ')
    .trimEnd();

function rowLines(
  row: Row,
  widths: Widths,
  painted: (verdict: Verdict, text: string) => string,
): string[] {
  const verdict = verdictOf(row);
  const [first, ...others] = filled(row.what, widths.what);
  const mark = `${verdict}${row.must ? '!' : ''}`;
  const figures = [publishedText(row), modelText(row), row.unit] as const;
  const text = line(widths, mark, row.kind, first, figures);
  return [
    painted(verdict, text.slice(0, VERDICT_WIDTH)) + text.slice(VERDICT_WIDTH),
    ...others.map((other) => UNDER + other),
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
    const { against = PUBLISHED } = section;
    const widths = widthsOf(rows, against);
    return [
      colors.bold(`${section.title} (${section.id})`),
      line(widths, '', '', '', [against, 'here', '']),
      ...rows.flatMap((row) => rowLines(row, widths, painted)),
      '',
    ];
  });
  const rows = sections.flatMap((section) => section.rows());
  const total = tallyOf(rows);
  const holdOuts = tallyOf(rows.filter(({ kind }) => kind === 'hold-out'));
  const must = tallyOf(rows.filter((row) => row.must));
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
    ...(must.rows === 0
      ? []
      : [
          must.off === 0
            ? `None of the ${must.rows} rows that must not be off (!) is: ${must.pass} pass, ${must.near} near.`
            : colors.red(`OFF: ${must.off} of the ${must.rows} rows that must not be off (!).`),
          'With ! one row that is off makes the command end with 1; near is borne.',
        ]),
    'pass, near, off and the kinds: docs/validation.md, or --markdown.',
    '',
  ].join('\n');
}
