import type { RoastError } from '@roastsim/core';
import { nearest } from './nearest.js';
import { readParts } from './parts.js';
import { quantityOf } from './quantity.js';
import { durationIn } from './readDuration.js';
import { isFaces, type Token, tokensOf } from './stageTokens.js';
import {
  FILLERS,
  PAN_FILLERS,
  STAGE_NAMES,
  type TypedKind,
  WORDS,
  WORDS_OF,
} from './stageWords.js';
import { printable, type Reading, refuse } from './text.js';
import { duration, type Kind, length, temperature, unitNamed } from './units.js';

/** What a stage's words and numbers say, before it is made. */
export interface Draft {
  tempC?: number;
  minutes?: number;
  faces?: number;
  seconds?: number;
  reachesC?: number;
  pull?: true;
  fan?: true;
  cold?: true;
  foil?: true;
  open?: true;
  coldest?: true;
  atMm?: number;
  offAxis?: number;
}

/**
 * Reads what follows a stage's name.
 *
 * @param text - plain text
 * @param reading - the whole stage, for errors
 */
export const readDraft = (kind: TypedKind, text: string, reading: Reading): Draft =>
  new StageReader(kind, text, reading).read();

/** Stages that hardly go without a time and well without a temperature. */
const ENDED_BY_TIME: readonly TypedKind[] = ['temper', 'oven-sear', 'rest'];

const isTimeToken = ({ kind, unit, text }: Token): boolean =>
  kind === 'number' && (unitNamed(unit, duration) !== undefined || text.includes(':'));

/** Reads what follows a stage's name, one word or number after the other. */
class StageReader {
  readonly #kind: TypedKind;
  readonly #text: string;
  readonly #reading: Reading;
  readonly #tokens: readonly Token[];
  readonly #draft: Draft = {};
  #next = 0;

  constructor(kind: TypedKind, text: string, reading: Reading) {
    this.#kind = kind;
    this.#text = text;
    this.#reading = reading;
    this.#tokens = tokensOf(text, reading);
  }

  read(): Draft {
    while (this.#next < this.#tokens.length) {
      const token = this.#tokens[this.#next];
      if (token.kind === 'word') this.#word(token);
      else this.#number(token);
    }
    return this.#draft;
  }

  #refuse(code: RoastError['code'], fault: string, hint?: string): never {
    return refuse(this.#reading, code, fault, hint);
  }

  #set<K extends keyof Draft>(field: K, value: Draft[K], what: string): void {
    if (this.#draft[field] !== undefined)
      this.#refuse('contradiction', `${what} stands in it twice`);
    this.#draft[field] = value;
  }

  #word({ text }: Token): void {
    this.#next++;
    if (FILLERS.has(text) || (this.#kind === 'pan-sear' && PAN_FILLERS.has(text))) return;
    const word = Object.hasOwn(WORDS, text) ? WORDS[text] : undefined;
    const allowed = WORDS_OF[this.#kind];
    if (word === undefined || !allowed.includes(word)) {
      this.#refuseStageName(text);
      const spellings = Object.keys(WORDS).filter((each) => allowed.includes(WORDS[each]));
      const near = word === undefined ? nearest(text, spellings) : undefined;
      this.#refuse(
        'unknown-name',
        word === undefined
          ? `there is no word "${printable(text)}" for this stage`
          : `"${text}" says nothing about this stage`,
        near === undefined ? undefined : `did you mean ${near}?`,
      );
    }
    if (word === 'pull') this.#refuse('missing', 'before "pull" stands "to"', 'write to pull');
    switch (word) {
      case 'to':
        this.#ending();
        break;
      case 'at':
        this.#place();
        break;
      case 'off-axis':
        this.#set('offAxis', this.#share(), 'off-axis');
        break;
      case 'fan':
      case 'cold':
      case 'coldest':
      case 'foil':
      case 'open':
        this.#set(word, true, word);
    }
  }

  /** Refuses the name of a stage, which no stage has in it: a comma is missing before it. */
  #refuseStageName(text: string): void {
    const isName =
      Object.hasOwn(STAGE_NAMES, text.replaceAll('-', '')) ||
      (text === 'water' && this.#tokens.at(this.#next)?.text === 'bath');
    if (!isName) return;
    const accepted = 'stages with a comma between them, like "counter 30min, oven 230C"';
    refuse({ ...this.#reading, accepted }, 'missing', `a comma is missing before "${text}"`);
  }

  /** After `to`: a temperature, or the pull. */
  #ending(): void {
    const token = this.#tokens.at(this.#next);
    if (token?.text === 'pull' && WORDS_OF[this.#kind].includes('pull')) {
      this.#next++;
      this.#set('pull', true, 'to pull');
      return;
    }
    if (token?.kind !== 'number') {
      const near = token === undefined ? undefined : nearest(token.text, ['pull']);
      this.#refuse(
        'missing',
        'after "to" stands a temperature or "pull"',
        near === undefined ? undefined : `did you mean ${near}?`,
      );
    }
    this.#set('reachesC', this.#quantity(token, temperature), 'to');
  }

  /** After `at`: how far along the roast, or how hot. */
  #place(): void {
    const token = this.#tokens.at(this.#next);
    if (token?.kind !== 'number') {
      this.#refuse('missing', 'after "at" stands a place or a temperature');
    }
    if (unitNamed(token.unit, length) === undefined) {
      this.#temperature(token);
      return;
    }
    const atMm = this.#quantity(token, length);
    if (atMm < 0) this.#refuse('out-of-range', 'a place along the roast cannot be less than 0');
    this.#set('atMm', atMm, 'a place');
  }

  /** After `off-axis`: a share of the radius. */
  #share(): number {
    const token = this.#tokens.at(this.#next);
    if (token?.kind !== 'number' || !['', '%'].includes(token.unit) || token.text.includes(':')) {
      return this.#refuse('missing', 'after "off-axis" stands a share of the radius', 'like 0.25');
    }
    this.#next++;
    const [{ value }] = readParts(token.text.replace('%', '').trim(), this.#reading);
    return token.unit === '%' ? value / 100 : value;
  }

  #number(token: Token): void {
    if (isFaces(token.unit)) {
      this.#next++;
      if (this.#kind !== 'pan-sear') {
        this.#refuse(
          'contradiction',
          `only a pan has faces, and ${printable(token.text)} is there`,
        );
      }
      const [{ value }] = readParts(token.text, this.#reading);
      this.#set('faces', value, 'a number of faces');
      return;
    }
    const isTime = isTimeToken(token);
    const isHot = unitNamed(token.unit, temperature) !== undefined;
    // a bare number or an unknown unit is taken for what is missing, so that the error offers the right units
    if (token.unit === '' && !isTime && this.#needsTime()) this.#refuseBare(token);
    if (isTime || (!isHot && this.#draft.tempC !== undefined)) this.#time(token);
    else this.#temperature(token);
  }

  /** Whether a time is what the stage still needs, and its temperature may be left out. */
  #needsTime(): boolean {
    return (
      ENDED_BY_TIME.includes(this.#kind) &&
      this.#draft.tempC === undefined &&
      !this.#tokens.some((token) => isTimeToken(token) || WORDS[token.text] === 'to')
    );
  }

  /** Refuses a number without a unit that is more likely a time than a temperature. */
  #refuseBare({ text }: Token): never {
    const [times, heats] = [duration, temperature].map(({ readings }) =>
      readings.map(([symbol, word]) => `${text}${symbol} for ${word}`).join(' or '),
    );
    return this.#refuse(
      'missing-unit',
      'a time needs a unit',
      `write ${times}; for a temperature ${heats}`,
    );
  }

  #temperature(token: Token): void {
    this.#set('tempC', this.#quantity(token, temperature), 'a temperature');
  }

  #quantity({ text }: Token, kind: Kind): number {
    this.#next++;
    const parts = readParts(text, this.#reading);
    return quantityOf(parts, kind, this.#reading);
  }

  /** A time and the parts that go on with it: `1h 20min`, `1h20`. */
  #time(first: Token): void {
    let last = first;
    let parts = 1;
    for (;;) {
      const token = this.#tokens.at(this.#next + parts);
      if (token?.kind !== 'number') break;
      const goesOn =
        unitNamed(token.unit, duration) !== undefined ||
        (token.unit === '' && token.from === last.to);
      if (!goesOn) break;
      last = token;
      parts++;
    }
    this.#next += parts;
    const text = this.#text.slice(first.from, last.to);
    if (this.#kind !== 'pan-sear') {
      this.#set('minutes', durationIn(text, this.#reading), 'a time');
      return;
    }
    if (this.#draft.faces === undefined) {
      this.#refuse(
        'missing',
        `${printable(text)} on how many faces`,
        `write 4x${text.replaceAll(' ', '')}`,
      );
    }
    if (parts === 1 && first.unit === '' && !isTimeToken(first)) {
      const hint = `write ${text}s for seconds or ${text}min for minutes`;
      this.#refuse('missing-unit', 'the time on each face needs a unit', hint);
    }
    // seconds stay as they were typed
    const exact = parts === 1 && unitNamed(first.unit, duration)?.symbol === 's';
    const minutes = durationIn(text, this.#reading);
    const seconds = exact ? readParts(text, this.#reading)[0].value : 60 * minutes;
    this.#set('seconds', seconds, 'a time');
  }
}
