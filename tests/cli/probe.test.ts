import { type ChildProcess, spawn } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { ENTRY, type Run, roastsim } from '../support/cli.js';
import { COOKS, cooked, demoLogs } from '../support/demoLogs.mjs';
import { library as lib } from '../support/insideLibrary.js';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));
const GOOD = 'data/demo/probe-good.csv';
const COOK = ['--weight', '2.2kg', '--oven', '200C'];
const NOTICE = /Below whole-cut guidance/;

const schema = JSON.parse(readFileSync(path.join(ROOT, 'docs/probe.schema.json'), 'utf8'));
const validate = new Ajv2020({ strict: true, allErrors: true, allowUnionTypes: true }).compile(
  schema,
);
const complaints = (document: unknown): string[] => {
  validate(document);
  return (validate.errors ?? []).map(({ instancePath, message }) => `${instancePath} ${message}`);
};
const widest = (text: string): number => Math.max(...text.split('\n').map((l) => [...l].length));
const probe = (log: string, ...args: string[]): Promise<Run> =>
  roastsim(['probe', log, ...COOK, ...args], { cwd: ROOT });

/** The command with a pipe on every side. */
const started = (...args: string[]): ChildProcess =>
  spawn(process.execPath, [ENTRY, 'probe', '-', ...COOK, ...args], { cwd: ROOT });

/** Its output until `enough`, or until it ends. */
function outputUntil(child: ChildProcess, enough: (text: string) => boolean): Promise<string> {
  return new Promise((resolve) => {
    let text = '';
    child.stdout?.on('data', (chunk: Buffer) => {
      text += chunk.toString();
      if (enough(text)) resolve(text);
    });
    child.stdout?.on('close', () => resolve(text));
  });
}

const ended = (child: ChildProcess): Promise<{ code: number | null; signal: string | null }> =>
  new Promise((resolve) => child.on('exit', (code, signal) => resolve({ code, signal })));

/** What the command makes of a log on standard input. */
async function piped(text: string, ...args: string[]): Promise<Run> {
  const child = started(...args);
  let stderr = '';
  child.stderr?.on('data', (chunk: Buffer) => {
    stderr += chunk.toString();
  });
  child.stdin?.end(text);
  const [stdout, { code }] = await Promise.all([outputUntil(child, () => false), ended(child)]);
  return { code: code ?? -1, stdout, stderr };
}

let folder: string;
beforeAll(async () => {
  folder = await mkdtemp(path.join(tmpdir(), 'roastsim-probe-'));
});
afterAll(() => rm(folder, { recursive: true, force: true }));

async function file(text: string): Promise<string> {
  const full = path.join(folder, 'log.csv');
  await writeFile(full, text);
  return full;
}

/** A log of `by`, up to `untilMinutes`, by the simulator. */
const logOf = (
  cook: Parameters<typeof cooked>[1],
  untilMinutes: number,
  change: (centreC: number, minutes: number) => number = (centreC) => centreC,
): string =>
  [
    'time min,centre C',
    ...cooked(lib, cook)
      .filter(({ minutes }) => minutes <= untilMinutes)
      .map(
        ({ minutes, centreC }) => `${minutes.toFixed(3)},${change(centreC, minutes).toFixed(2)}`,
      ),
  ].join('\n');

describe('an oven that is not what it was set to', () => {
  const logOf = async (ovenOffset: number, upToC: number): Promise<string> => {
    const cook = { by: { ovenOffset }, pullC: upToC, restMinutes: 0.2, stepS: 30, seed: 3 };
    const lines = cooked(lib, cook)
      .slice(0, -1)
      .map(({ minutes, centreC, ovenC }) => [minutes, centreC, ovenC].map((x) => x.toFixed(2)));
    const file = path.join(folder, `offset${ovenOffset}.csv`);
    await writeFile(file, `minutes,centre C,oven C\n${lines.join('\n')}\n`);
    return file;
  };

  test('a cool one: at the planned pull there is no hurry, and what meets the peak is said', async () => {
    const log = await logOf(-25, 44.6);
    const { stdout } = await probe(log);
    expect(stdout).toContain('At the planned pull: the middle is at 44 °C.');
    expect(stdout).not.toContain('PULL NOW');
    expect(stdout).toMatch(/For a peak of 56 °C leave it in until 4[67] °C: in [2-4] min\./);
    expect(stdout).not.toContain('take it out now');
    const document = JSON.parse((await probe(log, '--json')).stdout);
    expect(complaints(document)).toEqual([]);
    expect(document.betterPull.centreC).toBeGreaterThan(document.pull.centreC + 1);
    expect(document.betterPull.minutes).toBeGreaterThan(document.nowMinutes);
    expect(document.betterPull.clock).toBeUndefined();
    const live = await probe(log, '--every', '10min');
    expect(live.stdout).toMatch(/peak 5[45] \(\d+-\d+\) {2}for 56: pull 4[67]/);
    expect(widest(live.stdout)).toBeLessThanOrEqual(80);
  });

  test('a hot one: sooner than planned, and past it the sooner the better', async () => {
    const early = (await probe(await logOf(25, 36))).stdout;
    expect(early).toMatch(/For a peak of 56 °C take it out at 4[012] °C already: in [3-5] min\./);
    const late = (await probe(await logOf(25, 43))).stdout;
    expect(late).toMatch(/The pull for a peak of 56 °C, at 4[012] °C, is past/);
  });
});

describe('the pages', () => {
  test('docs/probe.md shows what the command prints', async () => {
    const page = await readFile(path.join(ROOT, 'docs/probe.md'), 'utf8');
    const samples = [...page.matchAll(/```text\n\$ roastsim ([^\n]+)\n([\s\S]*?)```/g)];
    expect(samples).toHaveLength(3);
    for (const [, command, shown] of samples) {
      const { code, stdout, stderr } = await roastsim(command.split(' '), { cwd: ROOT });
      expect(code).toBe(0);
      const [answer] = stdout.split('\n\n! Below');
      expect(shown).toBe(`${answer}\n${stderr}`);
    }
  });

  test('docs/probe.md names the options of a log, and no others that are not options', async () => {
    const page = await readFile(path.join(ROOT, 'docs/probe.md'), 'utf8');
    const { stdout } = await roastsim(['probe', '--help']);
    const offered = new Set(stdout.match(/--[a-z][a-z-]*/g));
    const plans = new Set((await roastsim(['--help'])).stdout.match(/--[a-z][a-z-]*/g));
    const own = [...offered].filter((option) => !plans.has(option));
    const written = new Set(page.match(/--[a-z][a-z-]*/g));
    expect([...written].filter((option) => !offered.has(option))).toEqual([]);
    expect(own.filter((option) => !written.has(option))).toEqual([]);
    expect(stdout).toMatch(/^Examples:/);
    expect(widest(stdout)).toBeLessThanOrEqual(80);
  });

  test('the demo logs are what the script makes', async () => {
    for (const [name, text] of Object.entries(demoLogs(lib))) {
      expect(await readFile(path.join(ROOT, 'data/demo', name), 'utf8'), name).toBe(text);
    }
  });
});

describe('a file', { timeout: 60_000 }, () => {
  test.each<[string, keyof typeof COOKS]>([
    ['probe-slow-oven.csv', 'slowOven'],
    ['probe-messy.csv', 'messy'],
  ])('%s: the true moment lies in the range', async (name, cook) => {
    const { stdout } = await probe(`data/demo/${name}`, '--json');
    const { pull, contradicts } = JSON.parse(stdout);
    const there = cooked(lib, COOKS[cook]).find(({ centreC }) => centreC >= pull.centreC);
    expect(there?.minutes).toBeGreaterThan(pull.minutes.low);
    expect(there?.minutes).toBeLessThan(pull.minutes.high);
    expect(pull.minutes.high - pull.minutes.low).toBeLessThan(8);
    expect(contradicts).toBe(false);
  });

  test('the moment of the pull is found, and no door is told of then', async () => {
    const { stdout } = await probe(GOOD, '--json');
    const document = JSON.parse(stdout);
    const there = cooked(lib, COOKS.good).find(({ ovenC }) => ovenC < 100);
    expect(Math.abs(document.pulledAtMinutes - (there?.minutes ?? 0))).toBeLessThan(1);
    expect(document.state).toBe('out');
    expect(document.doorOpenedAtMinutes).toEqual([]);
  });

  test.each<[string, readonly string[]]>([
    ['metric', ['--serve', '18:40']],
    ['US', ['--units', 'us', '--serve', '18:40']],
    ['strict', ['--at-risk']],
    ['guests', ['--guests', '3 rare, 4 medium', '--at', 'guests']],
    ['by the clock', ['--time', '40min']],
    ['early', ['--serve', '20:40']],
  ])('%s: 80 columns, notices, a valid document', async (_name, args) => {
    const log = 'data/demo/probe-slow-oven.csv';
    const { code, stdout, stderr } = await probe(log, ...args);
    expect(stderr).toBe('');
    expect(code).toBe(0);
    expect(widest(stdout)).toBeLessThanOrEqual(80);
    expect(stdout).toMatch(/Take care/);
    expect(stdout).toMatch(args[0] === '--at-risk' ? /People at risk are eating/ : NOTICE);
    const document = JSON.parse((await probe(log, ...args, '--json')).stdout);
    expect(complaints(document)).toEqual([]);
    const codes = document.warnings.map((warning: { code: string }) => warning.code);
    expect(codes).toContain(args[0] === '--at-risk' ? 'strict-rules' : 'below-guidance');
    expect(JSON.stringify(document)).not.toMatch(/Infinity|NaN|undefined/);
  });

  test('too late for dinner: what a hotter oven gains', async () => {
    const { stdout } = await probe('data/demo/probe-slow-oven.csv', '--serve', '18:40');
    expect(stdout).toMatch(/About 17 min late for 18:40\. A hotter oven/);
    expect(stdout).toMatch(/220 °C +\d+ min +\d+ min/);
    const early = await probe('data/demo/probe-slow-oven.csv', '--serve', '19:40');
    expect(early.stdout).toMatch(/early for 19:40\. A cooler oven/);
  });

  test('past the pull: out now, without foil, with the peak then', async () => {
    const log = logOf({ ...COOKS.good, by: {}, pullC: 50, restMinutes: 1 }, 49.3);
    const { stdout } = await probe(await file(log));
    expect(stdout).toMatch(/PULL NOW/);
    expect(stdout).toMatch(
      /! The middle is \d °C past the pull: take it out now and do not cover it/,
    );
    expect(stdout).toMatch(NOTICE);
  });

  test('a log that cannot be true is said to contradict, with a wider range', async () => {
    const cook = { ...COOKS.good, by: {}, restMinutes: 1 };
    const honest = JSON.parse((await probe(await file(logOf(cook, 14)), '--json')).stdout);
    const odd = await file(logOf(cook, 14, (_c, m) => 4 + 2.5 * m)); // no middle is reached so fast
    const { stdout } = await probe(odd);
    expect(stdout).toMatch(/! The log contradicts the model/);
    expect(stdout).toMatch(/ranges are widened/);
    const document = JSON.parse((await probe(odd, '--json')).stdout);
    const width = ({ pull }: { pull: { minutes: { low: number; high: number } } }): number =>
      pull.minutes.high - pull.minutes.low;
    expect(document.contradicts).toBe(true);
    const share = (one: typeof document): number => width(one) / one.pull.minutes.likely;
    expect(share(document)).toBeGreaterThan(1.5 * share(honest));
  });

  test('--log-start moves the log', async () => {
    const log = await file('time min,centre C\n0,4\n1,4\n2,4\n');
    expect(JSON.parse((await probe(log, '--json')).stdout).nowMinutes).toBe(2);
    const early = JSON.parse((await probe(log, '--json', '--log-start', '10min')).stdout);
    expect(early).toMatchObject({ nowMinutes: -18, state: 'waiting' });
    const late = JSON.parse((await probe(log, '--json', '--log-start', '40min')).stdout);
    expect(late.nowMinutes).toBe(12);
  });

  test('order does not matter, nor repeats', async () => {
    const [head, ...lines] = (
      await readFile(path.join(ROOT, 'data/demo/probe-slow-oven.csv'), 'utf8')
    )
      .trim()
      .split('\n');
    const straight = await probe('data/demo/probe-slow-oven.csv', '--json');
    const turned = await file([head, ...lines.toReversed()].join('\n'));
    expect(JSON.parse((await probe(turned, '--json')).stdout).pull).toEqual(
      JSON.parse(straight.stdout).pull,
    );
  });

  test('settings narrow what is believed before', async () => {
    const settings = path.join(folder, 'shop.yaml');
    await writeFile(settings, 'priors:\n  size: 0.01\n  ovenOffset: 1\n');
    const log = await file('time min,centre C\n0,4\n1,4\n');
    const width = async (...args: string[]): Promise<number> => {
      const { pull } = JSON.parse((await probe(log, '--json', ...args)).stdout);
      return pull.minutes.high - pull.minutes.low;
    };
    expect(await width('--settings', settings)).toBeLessThan(0.7 * (await width()));
  });
});

describe('a log that runs', { timeout: 60_000 }, () => {
  test('JSON: a document for every reading, each with the notices', async () => {
    const log = (await readFile(path.join(ROOT, GOOD), 'utf8')).split('\n').slice(0, 31).join('\n');
    const { code, stdout } = await piped(log, '--json');
    expect(code).toBe(0);
    const documents = stdout
      .trim()
      .split('\n')
      .map((line) => JSON.parse(line));
    expect(documents).toHaveLength(30);
    for (const document of documents) {
      expect(complaints(document)).toEqual([]);
      expect(document.warnings[0].code).toBe('below-guidance');
    }
    const left = documents.map(({ pull }) => pull.remainingMinutes.likely);
    expect(left[29]).toBeLessThan(left[0]);
    expect((await piped(log, '--json', '--every', '60s')).stdout.trim().split('\n')).toHaveLength(
      5,
    );
  });

  test('text on a pipe: a line a minute, the notices above, the whole answer below', async () => {
    const log = await readFile(path.join(ROOT, 'data/demo/probe-slow-oven.csv'), 'utf8');
    const { code, stdout } = await piped(log, '--serve', '18:40');
    expect(code).toBe(0);
    expect(widest(stdout)).toBeLessThanOrEqual(80);
    expect(stdout.match(/^\d+:\d\d {2}/gm)).toHaveLength(37);
    expect(stdout.indexOf('Below whole-cut guidance')).toBeLessThan(stdout.indexOf('0:00'));
    expect(stdout).toMatch(/at 220 °C \d min sooner/);
    expect(stdout).toMatch(/Take care/);
    // biome-ignore lint/suspicious/noControlCharactersInRegex: an escape is what must not be there
    expect(stdout).not.toMatch(/\u001b/);
  });

  test('bad lines stop nothing and are told at the end', async () => {
    const { code, stdout, stderr } = await piped('time s,centre C\n0,4\noops\n60,4.1\n1e5x,4\n');
    expect(code).toBe(0);
    expect(stdout).toMatch(/1 min in the oven/);
    expect(stderr).toBe(
      'roastsim: 2 lines of 5 could not be read\n  line 3: "oops" is no time\n  line 5: "1e5x" is no time\n',
    );
  });

  test('Ctrl-C ends it with the answer so far', async () => {
    const child = started();
    child.stdin?.write('time s,centre C\n0,4\n30,4\n');
    const end = ended(child);
    const all = outputUntil(child, () => false);
    await outputUntil(child, (text) => text.includes('0:00'));
    child.kill('SIGINT');
    expect(await end).toEqual({ code: 0, signal: null });
    expect(await all).toMatch(/Take care/);
  });

  test('a reader that closes the pipe ends it', async () => {
    const child = started('--json');
    child.stdin?.on('error', () => undefined); // it may be gone before all is written
    child.stdin?.write('time s,centre C\n0,4\n');
    await outputUntil(child, (text) => text.includes('\n'));
    child.stdout?.destroy();
    const end = ended(child);
    const feed = setInterval(() => child.stdin?.write(`${Date.now() % 1000},4\n`), 20);
    expect(await end).toEqual({ code: 0, signal: null });
    clearInterval(feed);
  });

  test.skipIf(process.platform !== 'linux')(
    'memory stays flat over six hours of one reading a second',
    { timeout: 120_000 },
    async () => {
      const child = started('--json', '--every', '10min');
      const line = (s: number): string => {
        const minutes = s / 60;
        const c = 4 + 48 * (1 - Math.exp(-Math.max(0, minutes - 12) / 190));
        return `${s},${(c + 0.2 * Math.sin(1.7 * s)).toFixed(2)},${(100 + 3 * Math.sin(s / 100)).toFixed(1)}\n`;
      };
      const lines = (from: number, to: number): string =>
        Array.from({ length: to - from }, (_, i) => line(from + i)).join('');
      const residentMiB = (): number => {
        const status = readFileSync(`/proc/${child.pid}/status`, 'utf8');
        return Number(/VmRSS:\s+(\d+)/.exec(status)?.[1]) / 1024;
      };
      const reached = (minutes: number): Promise<string> =>
        outputUntil(child, (text) => text.includes(`"nowMinutes":${minutes},`));
      const documents = outputUntil(child, () => false);
      const hour = reached(60);
      child.stdin?.write(`time s,centre C,oven C\n${lines(0, 3601)}`);
      await hour;
      const afterAnHour = residentMiB();
      const end = reached(350);
      child.stdin?.write(lines(3601, 21_600));
      await end;
      const afterSix = residentMiB();
      child.stdin?.end();
      expect((await documents).trim().split('\n')).toHaveLength(36);
      expect(afterSix, `${afterAnHour} MiB after an hour`).toBeLessThan(afterAnHour + 60);
      expect(afterSix).toBeLessThan(250);
    },
  );
});

describe('wrong inputs', () => {
  test.each<[string, readonly string[], RegExp]>([
    ['no log', [], /log/],
    ['no such file', ['nowhere.csv', ...COOK], /LOG.*nowhere\.csv.*no such file/],
    ['a folder', ['data', ...COOK], /LOG.*folder/],
    ['no roast', [GOOD], /--weight.*missing/],
    ['no log in it', ['LICENSE', ...COOK], /LOG: there is no reading.*docs\/probe\.md/],
    ['unknown units', [GOOD, ...COOK, '--log-units', 'K'], /--log-units.*C or F/],
    ['a start without a unit', [GOOD, ...COOK, '--log-start', '5'], /--log-start.*5min/],
    ['a start in two days', [GOOD, ...COOK, '--log-start', '48h'], /--log-start.*24 h/],
    ['never', [GOOD, ...COOK, '--every', '0s'], /--every.*60 min/],
    ['once a day', [GOOD, ...COOK, '--every', '24h'], /--every.*60 min/],
    ['two logs', [GOOD, GOOD, ...COOK], /argument/],
  ])('%s', async (_what, args, mentions) => {
    const { code, stdout, stderr } = await roastsim(['probe', ...args], { cwd: ROOT });
    expect(stderr, 'exactly one line').toMatch(/^roastsim: [^\n]+\n$/);
    expect(stderr).toMatch(mentions);
    expect(stderr).not.toMatch(/ at .*(\.js|\.ts|node:)/);
    expect(stdout).toBe('');
    expect(code).toBe(2);
  });

  test('an empty standard input', async () => {
    const { code, stdout, stderr } = await piped('');
    expect(stderr).toMatch(/^roastsim: LOG: there is no reading in it; accepted: [^\n]+\n$/);
    expect(stdout).toBe('');
    expect(code).toBe(2);
  });
});
