import { RoastError } from '@roastsim/core';
import type { Command } from 'commander';
import type { Io } from '../io.js';
import type { CardsReport } from '../pool/runCards.js';
import { printable, readChoice } from '../read/index.js';
import type { PlanColumn } from '../read/ordersColumns.js';
import type { PlanWords } from '../read/planOptions.js';
import { PAPER_NAMES } from './card.js';
import { addOptions, type OptionLine, PLAN_OPTIONS } from './planOptionLines.js';

/** Options of `roastsim cards` as they were typed. */
interface CardsArguments {
  readonly out?: string;
  readonly settings?: string;
  readonly replace?: boolean;
  readonly format?: string;
  readonly paper?: string;
}

const EXAMPLES = `Examples:
  roastsim cards orders.csv --out cards
  roastsim cards orders.csv --out cards --settings shop.yaml --replace
`;

const OPTIONS: readonly OptionLine[] = [
  ['The cards', '--out <folder>', 'where they go; made when it is missing'],
  ['The cards', '--settings <file>', "a shop's own defaults, YAML or JSON"],
  ['The cards', '--format <kind>', 'pdf (default), html or png'],
  ['The cards', '--paper <size>', 'a5 (default, a4 where it is too small), a4 or letter'],
  ['The cards', '--replace', 'replace cards there that differ'],
];

const FORMAT_NAMES = ['pdf', 'html', 'png'] as const;

/** Options of the plan that are no matter of one order. */
const NO_COLUMN = new Set(['settings']);

/**
 * Adds `roastsim cards`.
 *
 * @param fail - called when the work is done but some rows could not be
 */
export function addCardsCommand(program: Command, io: Io, version: string, fail: () => void): void {
  const command = program
    .command('cards')
    .description(
      'Prints the cook cards of a file of orders, and the day sheet that goes with them.',
    )
    .argument('<orders>', 'a CSV file, one order a row')
    .allowExcessArguments(false)
    .addHelpText('beforeAll', EXAMPLES);
  addOptions(command, OPTIONS);
  command.action(async (file: string, words: CardsArguments) => {
    if (await run(file, words, io, version)) fail();
  });
}

/** Whether there were problems. */
async function run(file: string, words: CardsArguments, io: Io, version: string): Promise<boolean> {
  if (words.out === undefined || words.out === '') {
    const accepted = 'a folder for the cards';
    throw new RoastError(`--out: it is missing; accepted: ${accepted}`, {
      code: 'missing',
      path: ['--out'],
      found: words.out,
      accepted,
    });
  }
  const format =
    words.format === undefined ? 'pdf' : readChoice(words.format, FORMAT_NAMES, '--format');
  const startedMs = performance.now();
  const { runCards } = await import('../pool/runCards.js');
  const report = await runCards({
    file,
    dir: words.out,
    ...(words.settings === undefined ? {} : { settingsFile: words.settings }),
    ...(words.paper === undefined
      ? {}
      : { paper: readChoice(words.paper, PAPER_NAMES, '--paper') }),
    format,
    replace: words.replace === true,
    planColumns: PLAN_COLUMNS,
    version,
    created: io.now(),
  });
  if (report.problems.length > 0) {
    const { problemsText } = await import('../show/problemsCsv.js');
    io.err(problemsText(report.problems));
  }
  const made = report.larger.filter((one) => one.made).map(({ row }) => row);
  if (made.length > 0) {
    io.err(
      `Too much for A5, set for A4: ${made.length === 1 ? 'row' : 'rows'} ${made.join(', ')}\n`,
    );
  }
  io.out(summary(report, words.out, (performance.now() - startedMs) / 1000));
  return report.problems.length > 0;
}

/** Columns an orders file can have for the plan: its options. */
export const PLAN_COLUMNS: readonly PlanColumn[] = PLAN_OPTIONS.flatMap(([, flags]) => {
  const [, name = '', bracket] = /^--([a-z-]+)(?: ([<[]))?/.exec(flags) ?? [];
  if (NO_COLUMN.has(name)) return [];
  const key = name.replace(/-(\w)/g, (_, letter: string) => letter.toUpperCase());
  const holds = bracket === '<' ? 'text' : bracket === '[' ? 'either' : 'flag';
  return { name, key: key as keyof PlanWords, holds };
});

/** Names of cards told in the summary. */
const TOLD = 3;

function summary(report: CardsReport, dir: string, seconds: number): string {
  const { made, kept, problems, sheets, larger, leftOver } = report;
  const counts = [
    `${made} made`,
    `${kept} kept`,
    ...(larger.length === 0 ? [] : [`${larger.length} of them set for A4`]),
    ...(problems.length === 0 ? [] : [counted(problems.length, 'problem')]),
  ];
  const extra =
    leftOver.length === 0
      ? ''
      : `; ${counted(leftOver.length, 'card')} there of no order now: ${leftOver.slice(0, TOLD).join(', ')}` +
        (leftOver.length > TOLD ? ', ...' : '');
  const beside = sheets.length === 0 ? '' : ` with ${sheets.join(', ')}`;
  return `Cards: ${counts.join(', ')} in ${printable(dir)}${beside} (${seconds.toFixed(1)} s)${extra}\n`;
}

const counted = (count: number, what: string): string =>
  `${count} ${what}${count === 1 ? '' : 's'}`;
