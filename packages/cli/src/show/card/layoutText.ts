import type { Ink, Measure, Op, Weight } from './page.js';

/** A stretch of text in one weight and ink. */
export interface Run {
  readonly text: string;
  readonly weight: Weight;
  readonly ink?: Ink;
}

/** How a paragraph is set. */
export interface Setting {
  readonly widthPt: number;
  readonly sizePt: number;
  /** From baseline to baseline, times the size. */
  readonly leading: number;
  /** Of all lines but the first. */
  readonly hangPt?: number;
  readonly align?: 'left' | 'right';
}

/** A paragraph set at the origin. */
export interface Paragraph {
  readonly ops: readonly Op[];
  readonly heightPt: number;
  /** Of its longest line. */
  readonly widthPt: number;
  readonly lines: number;
}

/** Sets texts in lines no wider than asked; words that are wider themselves are broken. Line ends in a text are spaces. */
export type Typesetter = (runs: readonly Run[], setting: Setting) => Paragraph;

/**
 * How far letters reach above and below the line they stand on, times their size: accented capitals and letters with a cedilla,
 * from the outlines of Source Sans 3 (only stacked accents, as in Vietnamese, go higher).
 */
export const RISE = 0.9;
export const DROP = 0.24;

/** From the top of a paragraph down to the baseline of its first line [pt]. */
export const firstBaseline = (sizePt: number, leading: number): number =>
  ((leading - RISE - DROP) / 2 + RISE) * sizePt;

/** Makes a typesetter, which remembers the words of the texts it has set: a layout sets them many times. */
export function typesetter(measure: Measure): Typesetter {
  const known = new Map<string, readonly Word[]>();
  const wordsOf = (runs: readonly Run[]): readonly Word[] => {
    const key = runs.map(({ text, weight, ink }) => `${weight}${ink}${text}`).join('\n');
    let words = known.get(key);
    if (words === undefined) {
      words = split(runs, measure);
      known.set(key, words);
    }
    return words;
  };
  return (runs, setting) => placed(filled(wordsOf(runs), setting, measure), setting);
}

/** What stands between two places where a line may break: one piece for each run it spans. Widths in em. */
interface Word {
  readonly pieces: readonly Piece[];
  /** At the end of a line, and with a space after it. */
  readonly em: number;
  readonly spacedEm: number;
}

interface Piece extends Run {
  readonly em: number;
  readonly spacedEm: number;
}

/** A space that must not break, and what keeps a number and its unit on one line. */
const GLUE = '\u00a0';
const glued = (text: string): string =>
  text.replace(/(\d) (?=(?:°|%|(?:min|h|kg|g|lb|oz|mm|cm|in|m)\b))/g, `$1${GLUE}`);

function split(runs: readonly Run[], measure: Measure): Word[] {
  const words: Run[][] = [];
  let open = false; // the next piece belongs to the last word
  for (const run of runs) {
    for (const [i, text] of glued(run.text)
      .split(/[ \t\r\n]+/)
      .entries()) {
      if (i > 0) open = false;
      if (text === '') continue;
      if (open) words[words.length - 1].push({ ...run, text });
      else words.push([{ ...run, text }]);
      open = true;
    }
  }
  return words.map((pieces) => wordOf(pieces, measure));
}

function wordOf(runs: readonly Run[], measure: Measure): Word {
  const pieces = runs.map((run): Piece => {
    const em = measure(run.text, run.weight);
    return { ...run, em, spacedEm: measure(`${run.text} `, run.weight) };
  });
  const em = pieces.reduce((sum, piece) => sum + piece.em, 0);
  const last = pieces[pieces.length - 1];
  return { pieces, em, spacedEm: em - last.em + last.spacedEm };
}

/** Words in lines, as many to a line as fit. */
function filled(words: readonly Word[], setting: Setting, measure: Measure): Word[][] {
  const { sizePt, widthPt, hangPt = 0 } = setting;
  const lines: Word[][] = [];
  let line: Word[] = [];
  let spacedEm = 0;
  const room = (): number => (widthPt - (lines.length === 0 ? 0 : hangPt)) / sizePt;
  for (const whole of words) {
    if (line.length > 0 && spacedEm + whole.em > room()) {
      lines.push(line);
      [line, spacedEm] = [[], 0];
    }
    let word = whole;
    while (line.length === 0 && word.em > room()) {
      const [head, tail] = broken(word, room(), measure);
      if (tail === undefined) break;
      lines.push([head]);
      word = tail;
    }
    line.push(word);
    spacedEm += word.spacedEm;
  }
  if (line.length > 0) lines.push(line);
  return lines;
}

/** Characters as a person sees them, accents with their letters. */
const characters = new Intl.Segmenter('en', { granularity: 'grapheme' });

/** The longest head of a word that fits, at least one character, and the rest. */
function broken({ pieces }: Word, room: number, measure: Measure): [head: Word, tail?: Word] {
  const single = pieces.flatMap((run) =>
    Array.from(characters.segment(run.text), ({ segment }): Run => ({ ...run, text: segment })),
  );
  let head = wordOf(joined(single.slice(0, 1)), measure);
  let count = 1;
  for (; count < single.length; count++) {
    const longer = wordOf(joined(single.slice(0, count + 1)), measure);
    if (longer.em > room) break;
    head = longer;
  }
  return count < single.length ? [head, wordOf(joined(single.slice(count)), measure)] : [head];
}

/** Neighbours of one look as one run. */
function joined(runs: readonly Run[]): Run[] {
  const result: Run[] = [];
  for (const run of runs) {
    const before = result.at(-1);
    if (before !== undefined && before.weight === run.weight && before.ink === run.ink) {
      result[result.length - 1] = { ...before, text: before.text + run.text };
    } else result.push(run);
  }
  return result;
}

/** Lines as texts on paper, one for each stretch of one look. */
function placed(lines: readonly Word[][], setting: Setting): Paragraph {
  const { sizePt, leading, widthPt, hangPt = 0, align = 'left' } = setting;
  const rise = firstBaseline(sizePt, leading);
  const ops: Op[] = [];
  let longest = 0;
  for (const [i, line] of lines.entries()) {
    const width =
      sizePt *
      line.reduce((sum, word, w) => sum + (w < line.length - 1 ? word.spacedEm : word.em), 0);
    let x = align === 'right' ? widthPt - width : i === 0 ? 0 : hangPt;
    longest = Math.max(longest, x + width);
    let open: { text: string; x: number; weight: Weight; ink: Ink } | undefined;
    const close = (): void => {
      if (open === undefined) return;
      ops.push({ kind: 'text', ...open, baseline: rise + i * leading * sizePt, sizePt });
    };
    for (const [w, { pieces }] of line.entries()) {
      for (const [p, { text, weight, ink = 'text', em, spacedEm }] of pieces.entries()) {
        const spaced = p === pieces.length - 1 && w < line.length - 1;
        const words = spaced ? `${text} ` : text;
        if (open !== undefined && open.weight === weight && open.ink === ink) open.text += words;
        else {
          close();
          open = { text: words, x, weight, ink };
        }
        x += sizePt * (spaced ? spacedEm : em);
      }
    }
    close();
  }
  return { ops, heightPt: lines.length * leading * sizePt, widthPt: longest, lines: lines.length };
}
