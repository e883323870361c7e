import { copyFile, mkdir, mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { beforeAll, describe, expect, test } from 'vitest';
import { ENTRY, type Run, roastsim } from '../support/cli.js';

const read = (file: string): Promise<string> =>
  readFile(fileURLToPath(new URL(`../../${file}`, import.meta.url)), 'utf8');

interface CheckRow {
  readonly what: string;
  readonly kind: string;
  readonly must: boolean;
  readonly verdict: string;
}
interface CheckDocument {
  readonly passed: boolean;
  readonly tally: Readonly<Record<string, number>>;
  readonly groups: readonly { readonly id: string; readonly rows: readonly CheckRow[] }[];
}

const GROUPS = [
  'charts',
  'losses',
  'other-cuts',
  'carryover',
  'ovens',
  'series',
  'lines',
  'handbook',
  'plans',
  'properties',
  'lethality',
];

describe('roastsim check, every row', () => {
  let text: Run;
  let json: Run;
  beforeAll(async () => {
    [text, json] = [await roastsim(['check']), await roastsim(['check', '--json'])];
  }, 180_000);

  test('ends with 0, all on standard output, within 80 columns', () => {
    expect(text.code).toBe(0);
    expect(text.stderr).toBe('');
    for (const line of text.stdout.split('\n')) expect([...line].length).toBeLessThanOrEqual(80);
  });

  test('says how it came out: none is off that must not be, hold-outs by themselves', () => {
    expect(text.stdout).toMatch(
      /^None of the (\d+) rows that must not be off \(!\) is: \d+ pass, \d+ near\.$/m,
    );
    const counted = /must not be off \(!\) is: (\d+) pass, (\d+) near/.exec(text.stdout) ?? [];
    const marked = (verdict: string): number =>
      text.stdout.split('\n').filter((line) => line.startsWith(`${verdict}! `)).length;
    expect(counted.slice(1).map(Number)).toEqual([marked('pass'), marked('near')]);
    expect(text.stdout).toMatch(/^With ! one row that is off makes the command end with 1/m);
    expect(text.stdout).toMatch(/^Of these \d+ hold-outs, never tuned on: /m);
    for (const id of GROUPS) expect(text.stdout).toContain(`(${id})`);
  });

  test('the JSON document follows its schema', async () => {
    const validate = new Ajv2020({ strict: true, allowUnionTypes: true }).compile(
      JSON.parse(await read('docs/check.schema.json')),
    );
    validate(JSON.parse(json.stdout));
    expect(validate.errors ?? []).toEqual([]);
    expect(json.code).toBe(0);
  });

  test('the JSON document has the rows of the text, and counts them right', () => {
    const { groups, tally, passed } = JSON.parse(json.stdout) as CheckDocument;
    expect(groups.map(({ id }) => id)).toEqual(GROUPS);
    const rows = groups.flatMap((group) => group.rows);
    for (const verdict of ['pass', 'near', 'off']) {
      const found = rows.filter((row) => row.verdict === verdict).length;
      expect(tally[verdict]).toBe(found);
      const lines = text.stdout.match(new RegExp(`^${verdict}[! ] `, 'gm'));
      expect(lines?.length ?? 0).toBe(found);
    }
    expect(rows.length).toBe(tally.rows);
    expect(passed).toBe(true);
    // the model's known failures are told, not left out
    expect(rows.some(({ kind, verdict }) => kind === 'hold-out' && verdict === 'off')).toBe(true);
  });
});

describe('roastsim check, parts of it', () => {
  test('--only prints one group', async () => {
    const { code, stdout } = await roastsim(['check', '--only', 'lethality']);
    expect(code).toBe(0);
    expect(stdout).toContain('(lethality)');
    expect(stdout).not.toContain('(charts)');
    expect(stdout).toContain('56 rows: 56 pass, 0 near, 0 off.');
  });

  test('--only may be repeated; the order of the page stays', async () => {
    const { code, stdout } = await roastsim(['check', '--only', 'lethality', '--only', 'series']);
    expect(code).toBe(0);
    expect(stdout.match(/\((?:[a-z-]+)\)$/gm)).toEqual(['(series)', '(lethality)']);
    expect(stdout).toContain('80 rows: 80 pass, 0 near, 0 off.');
  });

  test('the help and docs/cli.md list the groups', async () => {
    const help = (await roastsim(['check', '--help'])).stdout.replace(/\s+/g, ' ');
    expect(help).toContain(`may be repeated: ${GROUPS.join(', ')}`);
    const quoted = GROUPS.map((name) => `\`${name}\``).join(', ');
    expect(await read('docs/cli.md')).toContain(quoted);
  });

  test('rows are headed by what they are held against', async () => {
    const { stdout } = await roastsim(['check', '--only', 'series']);
    expect(stdout).toMatch(/\(series\)\n +exact +here\n/);
    expect(stdout).not.toMatch(/^ +published/m);
  });

  test('--only is not particular about spelling; a group there is not ends with 2', async () => {
    expect((await roastsim(['check', '--only', 'Lethality'])).code).toBe(0);
    const { code, stderr, stdout } = await roastsim(['check', '--only', 'letality']);
    expect(code).toBe(2);
    expect(stdout).toBe('');
    expect(stderr).toMatch(/^roastsim: --only: .*did you mean lethality\?.*\n$/);
    const listed = await roastsim(['check', '--only', 'charts,lethality']);
    expect(listed.code).toBe(2);
    expect(listed.stderr).toMatch(/one name, .*repeated; accepted: --only charts --only lethality/);
  });

  test.each([['--only', 'charts'], ['--json']])(
    '--markdown beside %s ends with 2',
    async (...others) => {
      const { code, stderr } = await roastsim(['check', '--markdown', ...others]);
      expect(code).toBe(2);
      expect(stderr).toMatch(/^roastsim: --(only|json): --markdown prints the whole page; .*\n$/);
    },
  );

  test('--markdown prints docs/validation.md', { timeout: 180_000 }, async () => {
    const { code, stdout } = await roastsim(['check', '--markdown']);
    expect(code).toBe(0);
    expect(stdout).toBe(await read('docs/validation.md'));
  });
});

// The built command in a place of its own, with one figure of the published table changed: 112 min at 130 °F become 150.
describe('roastsim check with a wrong figure', () => {
  let folder: string;
  beforeAll(async () => {
    folder = await mkdtemp(path.join(tmpdir(), 'roastsim-check-'));
    const dist = path.dirname(ENTRY);
    await mkdir(path.join(folder, 'dist'));
    await copyFile(path.join(dist, '../package.json'), path.join(folder, 'package.json'));
    let changed = 0;
    for (const file of (await readdir(dist)).filter((name) => name.endsWith('.js'))) {
      const text = await readFile(path.join(dist, file), 'utf8');
      const wrong = text.replace('"time_s_6_5_log": 6720', '"time_s_6_5_log": 9000');
      if (wrong !== text) changed++;
      await writeFile(path.join(folder, 'dist', file), wrong);
    }
    expect(changed).toBe(1);
    return () => rm(folder, { recursive: true });
  });

  test('marks the row off, says so at the end, and ends with 1', async () => {
    const entry = path.join(folder, 'dist/main.js');
    const { code, stdout, stderr } = await roastsim(['check', '--only', 'lethality'], {}, entry);
    expect(code).toBe(1);
    expect(stderr).toBe('');
    expect(stdout).toMatch(/^off! +fit +130 °F, 54\.4 °C: 6\.5 reductions +150\.00 +126\.52 min$/m);
    expect(stdout).toContain('OFF: 1 of the 56 rows that must not be off (!).');
    const json = await roastsim(['check', '--only', 'lethality', '--json'], {}, entry);
    expect(json.code).toBe(1);
    expect((JSON.parse(json.stdout) as CheckDocument).passed).toBe(false);
  });

  test('elsewhere nothing has changed', async () => {
    const entry = path.join(folder, 'dist/main.js');
    expect((await roastsim(['check', '--only', 'properties'], {}, entry)).code).toBe(0);
  });
});
