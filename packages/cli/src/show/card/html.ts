import type { CardModel, CardStep, ChartPicture, Picture } from './cardModel.js';
import { guestLines } from './guestLines.js';
import { fontFaces } from './htmlFonts.js';
import { pictureUrl } from './htmlPicture.js';
import { sheetSvg } from './htmlSheet.js';
import { cardStyle } from './htmlStyle.js';
import { cardWords, escaped, ownWords } from './htmlText.js';
import { drawingSvg } from './svg.js';
import { cardMeasure } from './textFonts.js';

/**
 * What a browser lets the page do: show what it carries and nothing else. No script runs, nothing is fetched, no form is sent,
 * whatever the texts say.
 */
const POLICY = [
  "default-src 'none'",
  "style-src 'unsafe-inline'",
  'img-src data:',
  'font-src data:',
  "base-uri 'none'",
  "form-action 'none'",
].join('; ');

/**
 * A cook card as one HTML file that needs nothing beside it: a flowing page for a phone or a laptop, and for the printer the same
 * sheet as the PDF.
 *
 * @throws RoastError `unreadable` when the fonts are missing from the installation; `out-of-range` when the texts are too long for
 * the paper
 */
export function cardHtml(card: CardModel): string {
  const body = `${screenPage(card)}\n${sheetSvg(card, cardMeasure)}`;
  return `<!doctype html>
<html lang="${escaped(card.language)}">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${POLICY}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="format-detection" content="telephone=no, date=no, address=no">
<title>${escaped(pageTitle(card))}</title>
<style>
${fontFaces(body)}
${cardStyle(card.paper)}
</style>
</head>
<body>
${body}
</body>
</html>
`;
}

const pageTitle = ({ title, forWhom }: CardModel): string =>
  forWhom === undefined ? title : `${title}, for ${forWhom}`;

function screenPage(card: CardModel): string {
  const { shop } = card;
  return [
    '<main>',
    masthead(card),
    heading(card),
    keyNumbers(card),
    timetable(card.steps),
    list('notices', 'Important for this roast', card.notices),
    sideView(card),
    section('cut', escaped(card.sectionTitle), drawingSvg(card.section, 'cut')),
    section('chart', 'Temperatures', `<div class="bleed">${chart(card.charts)}</div>`),
    facts(card),
    guestList(card),
    list('cautions', 'Take care', card.cautions),
    '</main>',
    shop?.footer === undefined ? '' : `<footer><p>${ownLines(shop.footer)}</p></footer>`,
  ]
    .filter((part) => part !== '')
    .join('\n');
}

function masthead({ shop, forWhom, pickUp, serve }: CardModel): string {
  const occasion = [
    forWhom === undefined ? '' : `<p class="for-whom">For ${ownWords(forWhom)}</p>`,
    pickUp === undefined ? '' : `<p>Pick up ${escaped(pickUp)}</p>`,
    serve === undefined ? '' : `<p class="serve">${escaped(serve)}</p>`,
  ].join('');
  if (shop === undefined && occasion === '') return '';
  return [
    '<header>',
    shop === undefined
      ? ''
      : `<div class="shop">${shop.logo === undefined ? '' : image(shop.logo)}<div>` +
        `<p class="shop-name">${ownWords(shop.name)}</p>` +
        (shop.address.length === 0 ? '' : `<p>${shop.address.map(ownWords).join('<br>')}</p>`) +
        '</div></div>',
    occasion === '' ? '' : `<div class="occasion">${occasion}</div>`,
    '</header>',
  ].join('');
}

const heading = ({ title, wanted, note }: CardModel): string =>
  `<div><h1>${cardWords(title)}</h1><p class="wanted">${cardWords(wanted)}</p>` +
  `${note === undefined ? '' : `<p class="note">${ownLines(note)}</p>`}</div>`;

const keyNumbers = ({ keys }: CardModel): string =>
  `<dl class="keys" style="--chars:${longest(keys.map(({ value }) => value))}">${keys
    .map(
      ({ label, value, detail }) =>
        `<div><dt>${escaped(label)}</dt><dd class="value">${escaped(value)}</dd>` +
        `<dd class="detail">${cardWords(detail)}</dd></div>`,
    )
    .join('')}</dl>`;

function timetable(steps: readonly CardStep[]): string {
  const clocks = steps.some(({ clock }) => clock !== undefined);
  const head = [...(clocks ? ['Clock'] : []), 'Min', 'What to do']
    .map((cell) => `<th scope="col">${cell}</th>`)
    .join('');
  const row = ({ minutes, clock, text, strong }: CardStep): string => {
    const cells = [
      ...(clocks ? [`<td class="clock">${escaped(clock ?? '')}</td>`] : []),
      `<td class="minutes">${escaped(minutes)}</td>`,
      `<td>${cardWords(text)}</td>`,
    ];
    return `<tr${strong ? ' class="strong"' : ''}>${cells.join('')}</tr>`;
  };
  return section(
    'steps',
    'Timetable',
    '<table><caption>Minutes count from the refrigerator.</caption>\n' +
      `<thead><tr>${head}</tr></thead>\n<tbody>\n${steps.map(row).join('\n')}\n</tbody></table>`,
  );
}

const sideView = ({ roast, legend }: CardModel): string =>
  section(
    'roast',
    'The roast',
    `<div class="bleed">${drawingSvg(roast, 'roast')}</div>\n` +
      `<ul class="legend">${legend.map((entry) => `<li>${legendEntry(entry)}</li>`).join('')}</ul>`,
  );

/** `MR medium-rare` with its letters strong. */
const legendEntry = (entry: string): string => {
  const [letters, ...name] = entry.split(' ');
  return `<b>${escaped(letters)}</b> ${escaped(name.join(' '))}`;
};

const facts = (card: CardModel): string =>
  section(
    'facts',
    'Good to know',
    terms(card.facts.map(({ label, text }) => [escaped(label), cardWords(text)])),
  );

function guestList({ guests, units }: CardModel): string {
  const lines = guestLines(guests, units);
  const chars = longest(lines.map(({ who, what }) => `${who} ${what}`));
  const pairs = lines.map(({ who, what }) => [ownWords(who), cardWords(what)] as const);
  return section('guests', 'Who gets which slice', terms(pairs, ` style="--chars:${chars}"`));
}

const list = (name: string, title: string, lines: readonly string[]): string =>
  section(
    name,
    title,
    lines.length === 0
      ? ''
      : `<ul>${lines.map((line) => `<li>${cardWords(line)}</li>`).join('\n')}</ul>`,
  );

const section = (name: string, title: string, content: string): string =>
  content === '' ? '' : `<section class="${name}"><h2>${title}</h2>\n${content}\n</section>`;

const terms = (pairs: readonly (readonly [term: string, text: string])[], style = ''): string =>
  pairs.length === 0
    ? ''
    : `<dl${style}>${pairs
        .map(([term, text]) => `<div><dt>${term}</dt><dd>${text}</dd></div>`)
        .join('\n')}</dl>`;

/** Characters in the longest of some texts: what the style sheet bases a width on. */
const longest = (texts: readonly string[]): number =>
  Math.max(1, ...texts.map((text) => [...text].length));

const image = (picture: Picture): string =>
  `<img src="${pictureUrl(picture)}" width="${picture.widthPx}" height="${picture.heightPx}"` +
  ` alt="${escaped(picture.alt)}">`;

/** The form with most words on wide screens, the one with fewer on narrow ones, where its words stay large. */
function chart([wide, ...narrower]: readonly ChartPicture[]): string {
  const [middle] = narrower;
  if (middle === undefined) return image(wide);
  return (
    `<picture><source media="(max-width:40rem)" srcset="${pictureUrl(middle)}"` +
    ` width="${middle.widthPx}" height="${middle.heightPx}">${image(wide)}</picture>`
  );
}

const ownLines = (text: string): string => text.split(/\r?\n/).map(ownWords).join('<br>');
