import { existsSync } from 'node:fs';
import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { type Browser, type BrowserContextOptions, chromium, type Page } from 'playwright-core';
import { afterAll, beforeAll } from 'vitest';

const CHROMIUM = '/usr/bin/chromium';

/** Whether pages can be opened here. */
export const hasChromium = existsSync(CHROMIUM);

/** What to do about tests that were skipped, to be put into their name. */
export const needsChromium = hasChromium ? '' : " (skipped: install Debian's chromium)";

/** Of the screens that cards are read on [CSS pixels]. */
export const SCREENS = {
  'small phone': { width: 320, height: 568 },
  phone: { width: 390, height: 844 },
  laptop: { width: 1280, height: 800 },
} as const;

/** A page under watch. */
export interface WatchedPage {
  readonly page: Page;
  /** Everything the page did that a card has no business doing: requests, dialogs, new windows, downloads, errors. */
  readonly doings: readonly string[];
  /** Shows another HTML file in its place; what was done before is forgotten. */
  show(html: string): Promise<void>;
}

/** A browser for the tests of one file. */
export interface TestBrowser {
  /** Opens an HTML file on its own. The caller closes the page. */
  open(html: string, options?: BrowserContextOptions): Promise<WatchedPage>;
}

/** Starts a browser before the tests of a file and ends it after them. Call it inside a `describe`. */
export function testBrowser(): TestBrowser {
  let browser: Browser;
  let folder: string;
  let files = 0;
  beforeAll(async () => {
    folder = await mkdtemp(path.join(tmpdir(), 'roastsim-browser-'));
    browser = await chromium.launch({
      executablePath: CHROMIUM,
      args: [
        '--headless',
        '--no-sandbox',
        '--disable-gpu',
        '--disable-quic',
        '--no-first-run',
        '--disable-background-networking',
        '--disable-component-update',
        '--disable-sync',
      ],
    });
  });
  afterAll(async () => {
    await browser?.close();
    await rm(folder, { recursive: true, force: true });
  });
  return {
    async open(html, options = {}) {
      let address = '';
      const page = await browser.newPage(options);
      const doings: string[] = [];
      page.on('request', (request) => {
        if (request.url() !== address) doings.push(`request ${request.url()}`);
      });
      page.on('dialog', async (dialog) => {
        doings.push(`dialog ${dialog.message()}`);
        await dialog.dismiss();
      });
      page.on('popup', () => doings.push('new window'));
      page.on('download', () => doings.push('download'));
      page.on('pageerror', (error) => doings.push(`error ${error.message}`));
      page.on('console', (message) => doings.push(`console ${message.text()}`));
      const show = async (content: string): Promise<void> => {
        const file = path.join(folder, `${files++}.html`);
        await writeFile(file, content);
        address = pathToFileURL(file).href;
        doings.length = 0;
        await page.goto(address, { waitUntil: 'load' });
      };
      await show(html);
      return { page, doings, show };
    },
  };
}
