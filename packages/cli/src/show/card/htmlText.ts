const ENTITIES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

/** What no document may hold: control characters but tab and line feed, halves of split characters, and what is no character. */
const UNFIT = /[^\P{Cc}\t\n]|[\p{Surrogate}\uFFFE\uFFFF]/gu;

/** Any text as the content of an HTML or SVG element, or of a quoted attribute: it is shown, never obeyed. */
export const escaped = (text: string): string =>
  text.replace(UNFIT, '\uFFFD').replace(/[&<>"']/g, (character) => ENTITIES[character]);

/** A person's own words, whose direction of writing may differ from the card's and must not turn what stands beside them. */
export const ownWords = (text: string): string => `<bdi>${escaped(text)}</bdi>`;

/** The card's own words; a number and its unit stay on one line. */
export const cardWords = (text: string): string =>
  escaped(
    text.replace(/(\d) (?=(?:°|%|(?:s|min|h|kg|g|lb|oz|mm|cm|in|m)(?![\p{L}\d])))/gu, '$1\u00a0'),
  );
