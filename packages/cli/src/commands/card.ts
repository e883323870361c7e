import path from 'node:path';
import { RoastError, timetable } from '@roastsim/core';
import type { Command } from 'commander';
import { ranged } from '../ask/forecasting.js';
import { planFor } from '../ask/planning.js';
import type { Io } from '../io.js';
import { lineOf, printable, readChoice } from '../read/index.js';
import { type PlanWords, readPlanOptions } from '../read/planOptions.js';
import type { CardModel, Paper } from '../show/card/cardModel.js';
import { type Reserved, reserve } from '../wholeFile.js';
import { addOptions, type OptionLine, PLAN_OPTIONS } from './planOptionLines.js';
import {
  readServing,
  reserveCalendar,
  SERVING_OPTIONS,
  type ServingWords,
  servedPlan,
} from './serving.js';

/** {@link PlanWords} and what goes on the card beside the plan. */
interface CardArguments extends PlanWords, ServingWords {
  readonly settings?: string;
  readonly name?: string;
  readonly pickUp?: string;
  readonly note?: string;
  readonly paper?: string;
  readonly out?: string;
}

const EXAMPLES = `Examples:
  roastsim card --weight 2.2kg --oven 230C --out card.pdf
  roastsim card --weight 2.2kg --oven 230C --serve 18:30 --name "A. Lind" --out card.html
  roastsim card --weight 1.1kg --cut centre --settings shop.yaml --out card.png
`;

const CARD_OPTIONS: readonly OptionLine[] = [
  ['The card', '--out <file>', 'where it goes: .pdf, .html or .png by its ending'],
  ['The card', '--name <name>', 'who it is for'],
  ['The card', '--pick-up <day>', 'day of pick-up: 2026-12-24, "2026-12-24 16:00"'],
  ['The card', '--note <text>', 'a line of your own'],
  ['The card', '--paper <size>', 'a5 (default), a4 or letter'],
];

/** Papers a card can be set for. */
export const PAPER_NAMES = ['a5', 'a4', 'letter'] as const satisfies readonly Paper[];
/** A moment on the card: `18:30, Thursday 24 December 2026`. */
const SERVED = 'HH:mm, cccc d LLLL yyyy';
const LONGEST_NAME = 80;
const LONGEST_NOTE = 240;

/** Adds `roastsim card`. */
export function addCardCommand(program: Command, io: Io): void {
  const command = program
    .command('card')
    .description('Prints the cook card of one roast: a handout with everything a kitchen needs.')
    .allowExcessArguments(false)
    .addHelpText('beforeAll', EXAMPLES);
  addOptions(command, [...PLAN_OPTIONS, ...CARD_OPTIONS, ...SERVING_OPTIONS]);
  command.action((words: CardArguments) => runCard(words, io));
}

/** A line of text for the card. */
export function readLine(text: string, most: number, option: string): string {
  const line = lineOf(text);
  if (line.length > 0 && [...line].length <= most) return line;
  const accepted = `1 to ${most} characters`;
  throw new RoastError(`${option}: read "${printable(text)}"; accepted: ${accepted}`, {
    code: 'out-of-range',
    path: [option],
    found: text,
    accepted,
  });
}

type Printer = (card: CardModel) => Promise<Uint8Array | string>;

/** How a card is printed, by the ending of its file; each printer is loaded when it is needed. */
const PRINTERS: Readonly<Record<string, (io: Io) => Promise<Printer>>> = {
  '.pdf': async (io) => {
    const { cardPdf } = await import('../show/card/pdf.js');
    return (card) => cardPdf(card, io.now());
  },
  '.html': async () => {
    const { cardHtml } = await import('../show/card/html.js');
    return async (card) => cardHtml(card);
  },
  '.png': async () => (await import('../show/card/png.js')).cardPng,
};

async function runCard(typed: CardArguments, io: Io): Promise<void> {
  const out = typed.out ?? '';
  const printer = PRINTERS[path.extname(out).toLowerCase()];
  if (printer === undefined) {
    const accepted = 'a file name that ends in .pdf, .html or .png';
    const read = typed.out === undefined ? 'it is missing' : `read "${printable(out)}"`;
    throw new RoastError(`--out: ${read}; accepted: ${accepted}`, {
      code: typed.out === undefined ? 'missing' : 'unwritable',
      path: ['--out'],
      found: typed.out,
      accepted,
    });
  }
  const { priorChanges, readSettings, withSettings } = await import('../read/settings.js');
  const settings = typed.settings === undefined ? {} : await readSettings(typed.settings);
  const words = withSettings(typed, settings);
  const { readDay } = await import('../read/readDay.js');
  const order = readPlanOptions(words);
  const serving = await readServing(words, order, io);
  const card = {
    words,
    order,
    ...(words.name === undefined ? {} : { forWhom: readLine(words.name, LONGEST_NAME, '--name') }),
    ...(words.pickUp === undefined ? {} : { pickUp: readDay(words.pickUp, '--pick-up') }),
    ...(words.note === undefined ? {} : { note: readLine(words.note, LONGEST_NOTE, '--note') }),
    ...(words.paper === undefined
      ? {}
      : { paper: readChoice(words.paper, PAPER_NAMES, '--paper') }),
  };
  const calendar = await reserveCalendar(words.calendar);
  let file: Reserved | undefined;
  try {
    file = await reserve(out, '--out');
    const { buildCard } = await import('../show/card/buildCard.js');
    const print = await printer(io);
    const planned = await ranged(await planFor(words, order), order, priorChanges(settings));
    const { plan } = planned;
    const served =
      serving === undefined
        ? undefined
        : await servedPlan(plan, order, timetable(plan), serving, io.now());
    const model = await buildCard(
      {
        ...card,
        ...(served === undefined ? {} : { clock: served.clock }),
        ...(serving?.named === true ? { serve: serving.at.toFormat(SERVED) } : {}),
      },
      planned,
      settings,
    );
    for (const notice of served?.notices ?? []) io.err(`${notice}\n`);
    const { printFitting } = await import('../show/card/fitting.js');
    const { content, paper } = await printFitting(model, card.paper ?? settings.paper, print);
    if (paper !== model.paper) io.err('Too much for A5; set for A4\n');
    if (calendar !== undefined && served !== undefined) {
      const { planCalendar } = await import('../show/calendar.js');
      const { forWhom, note } = card;
      await calendar.fill(
        planCalendar(plan, {
          units: order.units,
          clock: served.clock,
          created: io.now(),
          ...(forWhom === undefined ? {} : { forWhom }),
          ...(note === undefined ? {} : { note }),
        }),
      );
    }
    await file.fill(content);
    io.err(`Card written to ${printable(out)}\n`);
  } finally {
    await file?.drop();
    await calendar?.drop();
  }
}
