import { readFileSync } from 'node:fs';

/** A table of `data/published`, by its file name without `.json`. The caller states what it expects to find in it. */
export const published = <T>(name: string): T =>
  JSON.parse(
    readFileSync(new URL(`../../data/published/${name}.json`, import.meta.url), 'utf8'),
  ) as T;
