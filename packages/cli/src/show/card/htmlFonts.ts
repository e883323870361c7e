import { readFileSync } from 'node:fs';
import { fontFile } from '../fontFiles.js';
import { WEIGHTS } from './page.js';

/** Family the embedded faces go by inside a page. */
export const WEB_FONT_FAMILY = 'Card Sans';

/**
 * The style rules that embed the card's typeface. It comes cut by script (Latin, Greek, Cyrillic, ...); only the parts that
 * hold a character of the text go in: 63 kB for Latin, 336 kB for all of them.
 *
 * @param text - every character that will be shown
 * @throws RoastError `unreadable` when a font file is missing from the installation
 */
export function fontFaces(text: string): string {
  const ranges: unknown = JSON.parse(readFileSync(fontFile('web/unicode.json'), 'utf8'));
  const characters = [...new Set(text)].map((character) => character.codePointAt(0)!);
  return Object.entries(ranges as Record<string, string>)
    .filter(([, range]) => characters.some(within(range)))
    .flatMap(([script, range]) =>
      WEIGHTS.map((weight) => {
        const file = readFileSync(fontFile(`web/source-sans-3-${script}-${weight}-normal.woff2`));
        return (
          `@font-face{font-family:'${WEB_FONT_FAMILY}';font-weight:${weight};unicode-range:${range};` +
          `src:url(data:font/woff2;base64,${file.toString('base64')}) format('woff2')}`
        );
      }),
    )
    .join('\n');
}

/** Whether a code point lies in `U+0304,U+2000-206F`. */
function within(range: string): (codePoint: number) => boolean {
  const spans = range.split(',').map((span) => {
    const [from, to] = span.replace('U+', '').split('-');
    const first = Number.parseInt(from!, 16);
    return [first, to === undefined ? first : Number.parseInt(to, 16)] as const;
  });
  return (codePoint) => spans.some(([first, last]) => codePoint >= first && codePoint <= last);
}
