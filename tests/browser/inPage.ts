/// <reference lib="dom" />

// Functions that run inside a page: each stands alone, since a browser gets only its text.

/** A piece of text as the eye sees it, or a picture: edges [CSS pixels]. */
export interface Box {
  readonly what: string;
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

/**
 * Where ink is on the page: the lines of every text, and the pictures. Letters are taken from the top of a capital with an accent
 * to the foot of a g, in share of their size by the outlines of Source Sans 3.
 */
export function inkBoxes(): Box[] {
  const [rise, drop] = [0.72, 0.22];
  const boxes: Box[] = [];
  const add = (what: string, left: number, top: number, right: number, bottom: number): void => {
    if (right > left && bottom > top) boxes.push({ what, left, top, right, bottom });
  };
  const texts = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  for (let node = texts.nextNode(); node !== null; node = texts.nextNode()) {
    const parent = node.parentElement;
    if (parent === null || node.textContent?.trim() === '') continue;
    if (parent.closest('title, desc') !== null) continue;
    const what = node.textContent?.trim().slice(0, 40) ?? '';
    if (parent instanceof SVGTextContentElement) {
      // by its advance: the rectangles a browser gives are rounded outwards
      const matrix = parent.getScreenCTM();
      if (matrix === null || parent.getClientRects().length === 0) continue;
      const size = Number.parseFloat(getComputedStyle(parent).fontSize) * matrix.d;
      const from = parent.getStartPositionOfChar(0).x;
      const left = from * matrix.a + matrix.e;
      const right = (from + parent.getComputedTextLength()) * matrix.a + matrix.e;
      const baseline = Number(parent.getAttribute('y')) * matrix.d + matrix.f;
      add(what, left, baseline - rise * size, right, baseline + drop * size);
      continue;
    }
    const range = document.createRange();
    range.selectNodeContents(node);
    const size = Number.parseFloat(getComputedStyle(parent).fontSize);
    for (const { left, right, top, bottom } of range.getClientRects()) {
      const baseline = (top + bottom) / 2 + ((rise - drop) / 2) * size; // a line of text is centred about its letters
      add(what, left, baseline - rise * size, right, baseline + drop * size);
    }
  }
  for (const image of document.querySelectorAll('img, image')) {
    const { left, top, right, bottom } = image.getBoundingClientRect();
    add('picture', left, top, right, bottom);
  }
  return boxes;
}

/** Smallest letters on the page [pt], and what they say. */
export function smallestText(): { readonly pt: number; readonly text: string } {
  let smallest = { pt: Number.POSITIVE_INFINITY, text: '' };
  const texts = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  for (let node = texts.nextNode(); node !== null; node = texts.nextNode()) {
    const parent = node.parentElement;
    if (parent === null || node.textContent?.trim() === '') continue;
    if (parent.closest('title, desc') !== null || parent.getClientRects().length === 0) continue;
    const scale = parent instanceof SVGGraphicsElement ? (parent.getScreenCTM()?.d ?? 1) : 1;
    const pt = 0.75 * scale * Number.parseFloat(getComputedStyle(parent).fontSize);
    if (pt < smallest.pt) smallest = { pt, text: node.textContent ?? '' };
  }
  return smallest;
}

/** Elements that reach beyond the width of the window, and how wide the page would have to be. */
export function overflow(): { readonly width: number; readonly beyond: readonly string[] } {
  const { scrollWidth, clientWidth } = document.documentElement;
  const beyond = [...document.body.querySelectorAll('*')]
    .filter((element) => {
      const { left, right, width } = element.getBoundingClientRect();
      return width > 0 && (left < -0.5 || right > clientWidth + 0.5);
    })
    .map(({ tagName, className }) => `${tagName} ${String(className)}`);
  return { width: scrollWidth, beyond };
}

/** Blocks of the printed sheet, and the sheet itself. */
export function sheetBlocks(): { readonly sheet: Box; readonly blocks: readonly Box[] } {
  const boxOf = (element: Element, what: string): Box => {
    const { left, top, right, bottom } = element.getBoundingClientRect();
    return { what, left, top, right, bottom };
  };
  const sheet = document.querySelector('.sheet');
  if (sheet === null) throw new Error('there is no sheet');
  return {
    sheet: boxOf(sheet, 'sheet'),
    blocks: [...sheet.querySelectorAll('[data-block]')].map((block) =>
      boxOf(block, block.getAttribute('data-block') ?? ''),
    ),
  };
}

/** How often each kind of element stands in a part of the page, and which attributes there are. */
export function skeleton(selector: string): {
  readonly elements: Readonly<Record<string, number>>;
  readonly attributes: readonly string[];
} {
  const elements: Record<string, number> = {};
  const attributes = new Set<string>();
  for (const element of document.querySelectorAll(`${selector}, ${selector} *`)) {
    elements[element.localName] = (elements[element.localName] ?? 0) + 1;
    for (const { name } of element.attributes) attributes.add(name);
  }
  return { elements, attributes: [...attributes].sort() };
}

/** What the page says about the margins of the paper. */
export function pageRules(): { readonly marginTop: string; readonly marginLeft: string }[] {
  return [...document.styleSheets]
    .flatMap(({ cssRules }) => [...cssRules])
    .filter((rule) => rule instanceof CSSPageRule)
    .map(({ style: { marginTop, marginLeft } }) => ({ marginTop, marginLeft }));
}
