import { execFile } from 'node:child_process';
import { accessSync, constants } from 'node:fs';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { promisify } from 'node:util';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { PAPERS, type Paper } from '../../packages/cli/src/show/card/cardModel.js';
import { roastsim } from '../support/cli.js';

// The PDF of the built command in the eyes of other programs.

const run = promisify(execFile);
const TOOLS = ['pdfinfo', 'pdffonts', 'pdftotext', 'pdfimages', 'pdftoppm'];
const installed = (tool: string): boolean =>
  (process.env.PATH ?? '').split(path.delimiter).some((folder) => {
    try {
      accessSync(path.join(folder, tool), constants.X_OK);
      return true;
    } catch {
      return false;
    }
  });
const hasPoppler = TOOLS.every(installed);
const needsPoppler = hasPoppler ? '' : " (skipped: install Debian's poppler-utils)";

const PT_PER_MM = 72 / 25.4;
const GREEK = 'Αναστασία Παπαδοπούλου-Κωνσταντινίδου, Θεσσαλονίκη';
const CYRILLIC = 'Наталья Преображенская';
const PLAN = ['--weight', '2.2kg', '--oven', '230C', '--serve', '18:30'];
const WORDS = [...PLAN, '--name', GREEK, '--note', `For ${CYRILLIC} & Łukasz <at home>`];

/** Text with every run of white space as one space. */
const joined = (text: string): string => text.replace(/\s+/g, ' ');

describe.skipIf(!hasPoppler)(`the PDF of a card in other programs${needsPoppler}`, () => {
  let folder: string;
  const fileOf = (paper: Paper): string => path.join(folder, `${paper}.pdf`);
  const read = async (tool: string, ...args: readonly string[]): Promise<string> =>
    (await run(tool, args)).stdout;

  beforeAll(async () => {
    folder = await mkdtemp(path.join(tmpdir(), 'roastsim-card-tools-'));
    for (const paper of Object.keys(PAPERS) as Paper[]) {
      const { code, stderr } = await roastsim([
        ...['card', ...WORDS, '--paper', paper, '--out', fileOf(paper)],
      ]);
      expect(code, stderr).toBe(0);
    }
  });
  afterAll(() => rm(folder, { recursive: true, force: true }));

  describe.each(Object.entries(PAPERS))('%s', (name, { widthMm, heightMm }) => {
    const paper = name as Paper;

    test('has one page of its paper, and neither scripts nor forms', async () => {
      const info = await read('pdfinfo', fileOf(paper));
      expect(info).toMatch(/^Pages: +1$/m);
      expect(info).toMatch(/^JavaScript: +no$/m);
      expect(info).toMatch(/^Form: +none$/m);
      expect(info).toMatch(/^Tagged: +yes$/m);
      const [, width, height] = /^Page size: +([\d.]+) x ([\d.]+) pts/m.exec(info) ?? [];
      expect(Number(width)).toBeCloseTo(widthMm * PT_PER_MM, 1);
      expect(Number(height)).toBeCloseTo(heightMm * PT_PER_MM, 1);
    });

    test('brings its fonts, each with a way back to text', async () => {
      const [, , ...fonts] = (await read('pdffonts', fileOf(paper))).trim().split('\n');
      expect(fonts.length).toBeGreaterThanOrEqual(2);
      for (const font of fonts) expect(font).toMatch(/SourceSans3.* yes +yes +yes +\d+ +\d+ *$/);
    });

    test('says everything as text: the chart alone is a picture', async () => {
      const [, , ...pictures] = (await read('pdfimages', '-list', fileOf(paper)))
        .trim()
        .split('\n');
      expect(pictures).toHaveLength(1);

      const { stdout } = await roastsim([...PLAN, '--json']);
      const { pull, slices, roast } = JSON.parse(stdout);
      const text = joined(await read('pdftotext', '-raw', fileOf(paper), '-'));
      expect(text).toContain('230 °C');
      expect(text).toContain(`${Math.round(pull.minutes)} min`);
      expect(text).toContain(`${Math.round(pull.centreC)} °C`);
      expect(text).toContain(`${roast.massKg.toFixed(2)} kg`);
      expect(text).toContain('Serve at 18:30');
      expect(text).toContain(`For ${GREEK}`);
      expect(text).toContain(`${CYRILLIC} & Łukasz <at home>`);
      expect(text).toContain('Below whole-cut guidance');
      // on the drawings
      expect(text).toContain('thermometer, tip at the centre');
      for (const { peakCentreC } of slices) expect(text).toContain(`${Math.round(peakCentreC)}°`);
    });

    test('keeps its ink 5 mm from the edges', async () => {
      const dpi = 50;
      const { stdout } = await run('pdftoppm', ['-gray', '-r', String(dpi), fileOf(paper)], {
        encoding: 'buffer',
      });
      const [header] = /^P5\s(\d+) (\d+)\s255\s/.exec(stdout.toString('latin1', 0, 40)) ?? [''];
      const [, width, height] = header.split(/\s/).map(Number);
      const edge = Math.floor((5 / 25.4) * dpi);
      let [ink, beyond] = [0, 0];
      for (let y = 0; y < height; y++) {
        for (let x = 0; x < width; x++) {
          if (stdout[header.length + y * width + x] > 250) continue;
          ink++;
          const free = Math.min(x, y, width - 1 - x, height - 1 - y);
          if (free < edge) beyond++;
        }
      }
      expect(ink / (width * height)).toBeGreaterThan(0.05);
      expect(beyond).toBe(0);
    });
  });
});
