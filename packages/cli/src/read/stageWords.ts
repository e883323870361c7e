import type { Stage } from '@roastsim/core';

/** Stages that a line can name: all but those whose surroundings only a program can give. */
export type TypedKind = Exclude<Stage['kind'], 'surroundings'>;

/** How each stage is written, for messages. */
export const FORMS: Readonly<Record<TypedKind, string>> = {
  temper: 'counter 30min',
  'pan-sear': 'pan 230C 4x90s',
  'oven-sear': 'oven-sear 250C 8min',
  roast: 'oven 230C to pull',
  bath: 'bath 56C 2h',
  rest: 'rest 20min foil',
};

/** Names of stages without spaces and hyphens; the first of each kind is the one messages use. */
export const STAGE_NAMES: Readonly<Record<string, TypedKind>> = {
  counter: 'temper',
  temper: 'temper',
  pan: 'pan-sear',
  pansear: 'pan-sear',
  skillet: 'pan-sear',
  oven: 'roast',
  roast: 'roast',
  ovensear: 'oven-sear',
  bath: 'bath',
  waterbath: 'bath',
  rest: 'rest',
};
/** The names messages offer. */
export const STAGES_ACCEPTED = 'counter, pan, oven, oven-sear, bath, rest';

/** A word of a stage with a meaning of its own. */
export type Word = 'to' | 'pull' | 'fan' | 'cold' | 'coldest' | 'foil' | 'open' | 'at' | 'off-axis';

/** Spellings of the words. */
export const WORDS: Readonly<Record<string, Word>> = {
  to: 'to',
  until: 'to',
  pull: 'pull',
  fan: 'fan',
  cold: 'cold',
  coldest: 'coldest',
  foil: 'foil',
  tented: 'foil',
  open: 'open',
  uncovered: 'open',
  at: 'at',
  'off-axis': 'off-axis',
};

/** Words a cook may put in and that say nothing. */
export const FILLERS = new Set([
  'for',
  'in',
  'under',
  'with',
  'from',
  'the',
  'each',
  'per',
  'side',
  'face',
]);
/** The same in a pan. */
export const PAN_FILLERS = new Set(['x', '×', '*']);

const ENDING: readonly Word[] = ['to', 'at', 'coldest', 'off-axis'];

/** Words that mean something in a stage. */
export const WORDS_OF: Readonly<Record<TypedKind, readonly Word[]>> = {
  temper: ENDING,
  'pan-sear': ['at'],
  'oven-sear': ENDING,
  roast: [...ENDING, 'pull', 'fan', 'cold'],
  bath: [...ENDING, 'pull'],
  rest: [...ENDING, 'foil', 'open'],
};
