import { type OrderCut, planOrder, shapeOf, type TyingReport, tyingReport } from '@roastsim/core';
import type { Command } from 'commander';
import pc from 'picocolors';
import type { Io } from '../io.js';
import { type OrderWords, type ReadOrder, readOrderOptions } from '../read/orderOptions.js';
import { pointingAt } from '../read/planOptions.js';
import { addOptions, type OptionLine } from './planOptionLines.js';

/** {@link OrderWords}, the shop's files and where the answer goes. */
interface OrderArguments extends OrderWords {
  readonly prices?: string;
  readonly settings?: string;
  readonly json?: boolean;
  readonly quiet?: boolean;
}

const EXAMPLES = `Examples:
  roastsim order --guests 8
  roastsim order --guests "3 rare, 4 medium-rare, 1 medium-well" --leftovers 3oz
  roastsim order --guests 8 --children 3 --prices prices.yaml
  roastsim order --guests 12 --stock "2.4kg, 2.6kg" --oven 120C --json
`;

const OPTIONS: readonly OptionLine[] = [
  ['The people', '--guests <wishes>', 'how many: 8, or who wants what: "3 rare, 4 medium-rare"'],
  ['The people', '--children <number>', 'children beside the guests'],
  ['The people', '--appetite <share>', 'what a child eats of a portion (default 0.5)'],
  ['The people', '--portion <mass>', 'raw weight of a portion (default 227g, 8oz)'],
  ['The people', '--leftovers <mass>', 'cooked meat left for each person: 3oz, 85g'],
  ['The shop', '--prices <file>', 'price list, YAML or JSON'],
  ['The shop', '--stock <masses>', 'trimmed whole tenderloins there are: "2.4kg, 2.6kg"'],
  ['The shop', '--settings <file>', "a shop's own defaults, YAML or JSON"],
  ['The cook', '--oven <temperature>', 'oven it will be roasted in (default 230C)'],
  ['The cook', '--doneness <wish>', 'a band, or a temperature (default medium-rare)'],
  ['The cook', '--scale <name>', 'words for doneness: kitchen (default), amsa'],
  ['The answer', '--units <system>', 'metric or us (default: as typed)'],
  ['The answer', '--json', 'one JSON document'],
  ['The answer', '--quiet', 'only what to ask for, and the notices'],
];

/** Adds `roastsim order`. */
export function addOrderCommand(program: Command, io: Io, version: string): void {
  const command = program
    .command('order')
    .description('Says how much tenderloin to buy, as which cut, and how to tie it.')
    .allowExcessArguments(false)
    .addHelpText('beforeAll', EXAMPLES);
  addOptions(command, OPTIONS);
  command.action((words: OrderArguments) => runOrder(words, io, version));
}

/** Reads the shop's files; their readers are only loaded when there are some. */
async function read(words: OrderArguments): Promise<ReadOrder> {
  const settings =
    words.settings === undefined
      ? {}
      : await (await import('../read/settings.js')).readSettings(words.settings);
  const prices =
    words.prices === undefined
      ? undefined
      : await (await import('../read/prices.js')).readPrices(words.prices);
  return readOrderOptions(words, settings, prices);
}

async function runOrder(words: OrderArguments, io: Io, version: string): Promise<void> {
  const { request, units, locale, assumed } = await read(words);
  const order = pointingAt(undefined, words, () => planOrder(request));
  const tie = (cuts: readonly OrderCut[]): ReadonlyMap<OrderCut, TyingReport> =>
    new Map(
      order.candidates
        .filter(({ cut }) => cuts.includes(cut))
        .map(({ cut, piecesKg, askKg, trimmedKg }) => [
          cut,
          tyingReport(shapeOf(cut), (piecesKg[0] * trimmedKg) / askKg, order.cook),
        ]),
    );
  const children = request.children?.length ?? 0;
  if (words.json === true) {
    const { orderDocument } = await import('../show/orderDocument.js');
    const tying = tie(order.candidates.map(({ cut }) => cut));
    const context = { version, units, locale, assumed, children, tying };
    io.out(`${JSON.stringify(orderDocument(order, context))}\n`);
    return;
  }
  const { orderReport, shortOrder } = await import('../show/orderText.js');
  const quiet = words.quiet === true;
  const { cut } = order.recommendation;
  const tying = tie(quiet ? [] : cut === 'untrimmed' ? [cut] : [cut, 'whole']);
  const context = { units, locale, assumed, children, tying, colors: pc.createColors(io.color) };
  io.out(quiet ? shortOrder(order, context) : orderReport(order, context));
}
