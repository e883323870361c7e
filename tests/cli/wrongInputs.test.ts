import { chmod, mkdir, mkdtemp, readdir, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { roastsim } from '../support/cli.js';
import { roastsimInside } from '../support/cliInside.js';

// Each wrong input: one line on stderr that names the option, exit 2, nothing on stdout, no stack, no file left behind.

const GOOD = ['--weight', '2.2kg', '--oven', '230C'];
const with_ = (...more: string[]): string[] => [...GOOD, ...more];

/** What is wrong, the arguments, and a word the one line must hold. */
const WRONG: readonly (readonly [what: string, args: readonly string[], mentions: RegExp])[] = [
  ['nothing at all', [], /--weight.*missing/],
  ['no weight', ['--oven', '230C'], /--weight.*missing/],
  ['no heat', ['--weight', '2.2kg'], /--oven.*missing/],
  ['weight without a unit', ['--weight', '2.2', '--oven', '230C'], /--weight.*2\.2kg.*2\.2lb/],
  ['oven without a unit', ['--weight', '2.2kg', '--oven', '230'], /--oven.*230C.*230F/],
  ['weight in centimetres', ['--weight', '22cm', '--oven', '230C'], /--weight.*22cm/],
  ['oven in kilograms', ['--weight', '2kg', '--oven', '2kg'], /--oven.*2kg/],
  ['empty weight', ['--weight', '', '--oven', '230C'], /--weight.*nothing/],
  ['blank weight', ['--weight', '   ', '--oven', '230C'], /--weight/],
  ['words for a weight', ['--weight', 'heavy', '--oven', '230C'], /--weight.*heavy/],
  ['not a number', ['--weight', 'NaNkg', '--oven', '230C'], /--weight/],
  ['infinite weight', ['--weight', 'Infinitykg', '--oven', '230C'], /--weight/],
  ['huge exponent', ['--weight', '1e999kg', '--oven', '230C'], /--weight/],
  ['negative weight', ['--weight=-2kg', '--oven', '230C'], /--weight/],
  ['no weight to speak of', ['--weight', '0kg', '--oven', '230C'], /--weight/],
  ['a crumb', ['--weight', '10g', '--oven', '230C'], /--weight.*0\.05 to 12/],
  ['a whole ox', ['--weight', '400kg', '--oven', '230C'], /--weight.*12/],
  ['ounces before pounds', ['--weight', '8oz 4lb', '--oven', '230C'], /--weight/],
  ['pounds twice', ['--weight', '4lb 3lb', '--oven', '230C'], /--weight/],
  ['misspelt unit', ['--weight', '4 pnds', '--oven', '230C'], /--weight/],
  ['a very long number', ['--weight', `${'9'.repeat(5000)}kg`, '--oven', '230C'], /--weight/],
  ['control characters', ['--weight', '2\u001b[31mkg', '--oven', '230C'], /--weight/],
  ['a line break inside', ['--weight', '2kg\nrm', '--oven', '230C'], /--weight/],
  ['oven too cold', ['--weight', '2kg', '--oven', '23C'], /--oven.*60 to 320.*230/],
  ['oven too hot', ['--weight', '2kg', '--oven', '900C'], /--oven.*60 to 320/],
  ['oven in kelvin', ['--weight', '2kg', '--oven', '503K'], /--oven/],
  ['oven below absolute zero', ['--weight', '2kg', '--oven=-400C'], /--oven/],
  ['two heats', with_('--bath', '58C'), /--oven.*bath/],
  ['fan in a bath', ['--weight', '2kg', '--bath', '58C', '--fan'], /--fan.*bath/],
  ['bath boiling', ['--weight', '2kg', '--bath', '110C'], /--bath.*40 to 95/],
  [
    'bath cooler than the wish',
    ['--weight', '1kg', '--bath', '55C', '--doneness', 'medium'],
    /--doneness.*never.*tends/,
  ],
  [
    'oven cooler than the wish',
    ['--weight', '1kg', '--cut', 'centre', '--oven', '60C', '--doneness', 'well-done'],
    /--doneness.*tends/,
  ],
  ['unknown cut', with_('--cut', 'rump'), /--cut.*whole, centre, butt, tail, other/],
  ['misspelt cut', with_('--cut', 'centr'), /--cut.*did you mean centre/],
  ['unknown doneness', with_('--doneness', 'purple'), /--doneness.*medium-rare/],
  ['misspelt doneness', with_('--doneness', 'medum'), /--doneness.*did you mean medium/],
  ['doneness without a unit', with_('--doneness', '56'), /--doneness.*56C/],
  ['doneness too cold', with_('--doneness', '20C'), /--doneness.*35 to 85/],
  ['doneness too hot', with_('--doneness', '95C'), /--doneness.*35 to 85/],
  ['unknown slice', with_('--at', 'left'), /--at.*middle, thick, thin/],
  ['unknown scale', with_('--scale', 'kelvin'), /--scale.*kitchen, amsa/],
  ['unknown units', with_('--units', 'imperial'), /--units.*metric, us/],
  ['unknown option', with_('--wieght', '3kg'), /--wieght.*--weight/],
  ['unknown command', ['toast'], /no command "toast".*card, .*compare/],
  ['misspelt command', ['comparee'], /did you mean compare\?/],
  ['misspelt command with options', ['cmpare', '--weight', '2kg'], /did you mean compare\?/],
  ['misspelt command, its own option', ['chek', '--only', 'charts'], /did you mean check\?/],
  ['help as a command', ['help'], /did you mean --help\?/],
  [
    'unquoted value',
    ['--weight', '4', 'lb', '--oven', '230C'],
    /"lb" belongs to no option.*quotes/,
  ],
  ['too much for a command', ['card', 'extra'], /too many arguments for 'card'/],
  ['option without its value', ['--oven', '230C', '--weight'], /--weight/],
  ['temper without a unit', with_('--temper', '30'), /--temper.*min/],
  ['temper for two days', with_('--temper', '48h'), /--temper.*1440/],
  ['negative rest', with_('--rest=-5min'), /--rest/],
  ['rest as a clock', with_('--rest', '1:20'), /--rest/],
  ['unknown sear', with_('--sear', 'torch'), /--sear.*pan, oven/],
  ['pan not hot', with_('--sear-pan', '60C'), /--sear-pan.*120 to 350/],
  ['pan and oven sear at once', with_('--sear', 'oven', '--sear-pan', '230C'), /--sear-pan/],
  ['sear last without a sear', with_('--sear-last'), /--sear-last/],
  ['pull and time at once', with_('--pull', '50C', '--time', '40min'), /--time.*--pull/],
  ['pull too hot', with_('--pull', '120C'), /--pull.*20 to 90/],
  ['pull without a unit', with_('--pull', '50'), /--pull.*50C/],
  ['no time', with_('--time', '0min'), /--time/],
  ['time for a week', with_('--time', '170h'), /--time/],
  ['refrigerator frozen', with_('--fridge', '-18C'), /--fridge.*-1\.5/],
  ['refrigerator hot', with_('--fridge', '60C'), /--fridge.*30/],
  ['serving at noon o\u2019clock', with_('--serve', 'noon'), /--serve/],
  ['serving at 25:00', with_('--serve', '25:00'), /--serve/],
  ['length of a pencil lead', with_('--length', '1mm'), /--length/],
  ['length far from the weight', with_('--length', '15cm'), /--length.*52/],
  ['length without a unit', with_('--length', '48'), /--length.*cm/],
  ['girth of a barrel', with_('--girth', '3m'), /--girth/],
  ['girth against weight', with_('--length', '50cm', '--girth', '12cm'), /--girth.*kg.*kg/],
  ['girths without places', with_('--girth', '24cm, 26cm'), /--girth/],
  ['girths at one place', with_('--girth', '24cm@5cm, 26cm@5cm'), /--girth/],
  ['girth beyond the end', with_('--length', '40cm', '--girth', '24cm@50cm'), /--length|--girth/],
  [
    'other roast without a size',
    ['--cut', 'other', '--weight', '1kg', '--oven', '180C'],
    /--diameter/,
  ],
  ['length alone', ['--length', '50cm', '--oven', '230C'], /--weight/],
  [
    'unfolded butt',
    ['--cut', 'butt', '--unfolded', '--weight', '1kg', '--oven', '230C'],
    /--unfolded/,
  ],
  ['rare for people at risk', with_('--at-risk', '--doneness', 'rare'), /--doneness.*62\.8/],
  ['rare tenderised meat', with_('--non-intact', '--doneness', '55C'), /--doneness.*62\.8/],
  ['early pull for people at risk', with_('--at-risk', '--pull', '50C'), /--pull.*62\.8/],
  ['no rest for people at risk', with_('--at-risk', '--rest', '0min'), /3 min/],
  ['thick end for people at risk', with_('--at-risk', '--at', 'thick'), /--at/],
  ['half sure', with_('--sure', '40%'), /--sure.*50 to 99 %/],
  ['wholly sure', with_('--sure', '100%'), /--sure.*50 to 99 %/],
  ['sure in words', with_('--sure', 'very'), /--sure.*80%/],
  ['sure by the clock', with_('--sure', '80%', '--time', '40min'), /--sure.*--time/],
  ['chart in no folder', with_('--chart', 'nowhere/at/all.png'), /--chart.*folder/],
  ['chart onto a folder', with_('--chart', 'closed.png'), /--chart.*folder/],
  ['chart without a name', with_('--chart', ''), /--chart/],
  ['chart under a file', with_('--chart', '/dev/null/x.png'), /--chart/],
  ['chart of another kind', with_('--chart', 'out.gif'), /--chart.*\.png/],
];

let folder: string;

beforeAll(async () => {
  folder = await mkdtemp(path.join(tmpdir(), 'roastsim-wrong-'));
  await mkdir(path.join(folder, 'closed.png'));
  await chmod(path.join(folder, 'closed.png'), 0o555);
});

afterAll(() => rm(folder, { recursive: true, force: true }));

describe('wrong inputs', () => {
  test('there are at least sixty', () => expect(WRONG.length).toBeGreaterThanOrEqual(60));

  test.each(WRONG)('%s', async (_what, args, mentions) => {
    // those about files need a folder to stand in
    const run = args.includes('--chart') ? roastsim : roastsimInside;
    const { code, stdout, stderr } = await run(args, { cwd: folder });
    expect(stderr, 'exactly one line').toMatch(/^roastsim: [^\n]+\n$/);
    expect(stderr).toMatch(mentions);
    expect(stderr, 'no stack').not.toMatch(/ at .*(\.js|\.ts|node:)/);
    expect(stderr.length, 'short enough to read').toBeLessThan(500);
    expect(stdout).toBe('');
    expect(code).toBe(2);
    expect(await readdir(folder), 'no file left').toEqual(['closed.png']);
  });
});
