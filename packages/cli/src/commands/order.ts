import type { Command } from 'commander';
import type { Io } from '../io.js';
import { addOptions, type OptionLine } from './planOptionLines.js';
import type { OrderArguments } from './runOrder.js';

const EXAMPLES = `Examples:
  roastsim order --guests 8
  roastsim order --guests "3 rare, 4 medium-rare, 1 medium-well" --leftovers 3oz
  roastsim order --guests 8 --children 3 --prices prices.yaml
  roastsim order --guests 12 --stock "2.4kg, 2.6kg" --oven 120C --json
  roastsim order --orders orders.csv --stock "2.4kg, 2.6kg" --out sheet.pdf
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
  ['The cutting list', '--orders <file>', "a day's orders, to be cut from the stock"],
  ['The cutting list', '--out <file>', 'the cutting sheet as a PDF file'],
  ['The cutting list', '--tolerance <share>', 'so much lighter may a piece be cut (default 5%)'],
  ['The cook', '--oven <temperature>', 'oven it will be roasted in (default 230C)'],
  ['The cook', '--doneness <wish>', 'a band, or a temperature (default medium-rare)'],
  ['The cook', '--scale <name>', 'words for doneness: kitchen (default), amsa'],
  ['The answer', '--units <system>', 'metric or us (default: as typed)'],
  ['The answer', '--json', 'one JSON document'],
  ['The answer', '--quiet', 'only what to ask for, and the notices'],
];

/** Adds `roastsim order`. */
export function addOrderCommand(program: Command, io: Io, version: string, fail: () => void): void {
  const command = program
    .command('order')
    .description(
      'Says how much tenderloin to buy, as which cut, and how to tie it; or cuts a day of orders from a stock.',
    )
    .allowExcessArguments(false)
    .addHelpText('beforeAll', EXAMPLES);
  addOptions(command, OPTIONS);
  command.action(async (words: OrderArguments) => {
    const { runOrder } = await import('./runOrder.js');
    await runOrder(words, io, version, fail);
  });
}
