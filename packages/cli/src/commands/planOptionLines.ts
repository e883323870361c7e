import type { Command } from 'commander';

/** An option: the group the help shows it in, its flags and its help. */
export type OptionLine = readonly [group: string, flags: string, help: string];

/** Options that say what to cook, how, and what for: the same for every command that plans. */
export const PLAN_OPTIONS: readonly OptionLine[] = [
  ['The roast', '--weight <mass>', 'trimmed raw weight: 2.2kg, "4lb 8oz"'],
  ['The roast', '--cut <name>', 'whole (default), centre, butt, tail; other for any round roast'],
  ['The roast', '--length <length>', 'length as it goes in: 48cm'],
  [
    'The roast',
    '--girth <sizes>',
    'round the roast: 25cm, or "24cm@5cm, 26cm@20cm" from the thick end',
  ],
  ['The roast', '--diameter <sizes>', 'across the roast, the same way'],
  ['The roast', '--untied', 'no twine'],
  ['The roast', '--unfolded', 'thin tail not folded under'],
  ['The roast', '--fridge <temperature>', 'temperature it starts at (default 4C)'],
  ['The roast', '--non-intact', 'tenderised, injected or rolled meat: strict safety rules'],
  ['The heat', '--oven <temperature>', 'oven setting: 230C, 446F'],
  ['The heat', '--fan', 'fan on'],
  ['The heat', '--cold-oven', 'start in a cold oven'],
  ['The heat', '--temper <time>', 'time on the counter first (default 30min)'],
  ['The heat', '--sear [where]', 'brown it first: pan (default) or oven'],
  ['The heat', '--sear-pan <temperature>', 'brown it in a pan this hot (default 230C)'],
  ['The heat', '--sear-last', 'brown it after the oven instead'],
  ['The heat', '--rest <time>', 'rest after the pull (default 20min)'],
  ['The heat', '--open-rest', 'rest without foil'],
  ['The heat', '--bath <temperature>', 'water bath instead of the oven'],
  ['The heat', '--stages <line>', 'all of it in one: "counter 30min, oven 230C, rest 20min"'],
  [
    'The aim',
    '--doneness <wish>',
    'a band, or the temperature of the middle (default medium-rare)',
  ],
  ['The aim', '--at <slice>', 'which slice gets it: middle (default), thick, thin; guests'],
  ['The aim', '--pull <temperature>', 'simulate this pull instead of finding it'],
  ['The aim', '--time <time>', 'simulate this oven time instead'],
  ['The aim', '--scale <name>', 'words for doneness: kitchen (default), amsa'],
  ['The aim', '--at-risk', 'someone young, old, pregnant or unwell eats: strict safety rules'],
  ['The aim', '--serve <clock>', 'when to serve: 18:30, "tomorrow 18:30"; gives clock times'],
  ['The aim', '--portion <mass>', 'raw weight of a slice (default 227g, 8oz)'],
  ['The guests', '--guests <wishes>', '8, or "3 rare, 4 medium-rare", or "Ada: rare, Bo: 60C"'],
  ['The guests', '--vary <list>', 'with --at guests, vary oven, sear, fold, carving or all'],
  ['The guests', '--within <time>', 'with --at guests, time from refrigerator to carving'],
  ['The guests', '--leftovers <mass>', 'cooked meat to keep for each guest: 85g, 3oz'],
  ['The aim', '--settings <file>', "a shop's own defaults, YAML or JSON"],
  ['The aim', '--units <system>', 'metric or us (default: as typed)'],
];

/** Puts options on a command, under their groups. */
export function addOptions(command: Command, lines: readonly OptionLine[]): void {
  for (const [group, flags, help] of lines) {
    command.addOption(command.createOption(flags, help).helpGroup(`${group}:`));
  }
}
