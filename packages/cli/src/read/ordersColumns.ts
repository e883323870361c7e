import { RoastError } from '@roastsim/core';
import { nearest } from './nearest.js';
import type { PlanWords } from './planOptions.js';
import { plain, printable } from './text.js';

/** A column that holds an option of the plan. */
export interface PlanColumn {
  /** The option without its dashes, `sear-pan`. */
  readonly name: string;
  readonly key: keyof PlanWords;
  /** What a cell holds: a text, yes or no, or either. */
  readonly holds: 'text' | 'flag' | 'either';
}

/** A column that is about the order, not about the plan. */
export interface OrderColumn {
  readonly name: (typeof ABOUT_ORDER)[number];
  readonly holds: 'order';
}

export type Column = PlanColumn | OrderColumn;

const ABOUT_ORDER = ['name', 'pick up', 'note'] as const;

/** Most unknown names told in one error. */
const TOLD = 5;

/**
 * What each column holds, from the names in the header. Capitals, spaces, hyphens, underscores and dashes in front do not matter.
 *
 * @returns as many as there are names; `undefined` for a column without a name
 * @throws RoastError `unknown-name` for names that mean nothing here, `contradiction` for one name twice
 */
export function columnsOf(
  header: readonly string[],
  planColumns: readonly PlanColumn[],
): readonly (Column | undefined)[] {
  return matchColumns<Column>(header, [
    ...ABOUT_ORDER.map((name): OrderColumn => ({ name, holds: 'order' })),
    ...planColumns,
  ]);
}

/** The same for any set of known columns. */
export function matchColumns<C extends { readonly name: string }>(
  header: readonly string[],
  known: readonly C[],
): readonly (C | undefined)[] {
  const columns = header.map((typed) =>
    bare(typed) === '' ? undefined : known.find(({ name }) => bare(name) === bare(typed)),
  );
  const unknown = header.filter((typed, i) => bare(typed) !== '' && columns[i] === undefined);
  if (unknown.length > 0) refuseNames(unknown, known);
  const twice = columns.find(
    (column, i) => column !== undefined && columns.indexOf(column) !== i,
  )?.name;
  if (twice !== undefined) {
    throw new RoastError(`column names: there are two columns "${twice}"; accepted: one of each`, {
      code: 'contradiction',
      path: ['column names'],
      found: twice,
      accepted: 'one of each',
    });
  }
  return columns;
}

function refuseNames(
  unknown: readonly string[],
  known: readonly { readonly name: string }[],
): never {
  const told = unknown.slice(0, TOLD).map((typed) => {
    const near = nearest(
      bare(typed),
      known.map(({ name }) => bare(name)),
    );
    const name = known.find((column) => bare(column.name) === near)?.name;
    return `"${printable(typed)}"${name === undefined ? '' : ` (did you mean ${name}?)`}`;
  });
  const more = unknown.length > TOLD ? ` and ${unknown.length - TOLD} more` : '';
  const accepted = known.map(({ name }) => name).join(', ');
  throw new RoastError(
    `column names: there is no column ${told.join(', ')}${more}; accepted: ${accepted}`,
    { code: 'unknown-name', path: ['column names'], found: unknown, accepted },
  );
}

const bare = (name: string): string =>
  plain(name)
    .toLowerCase()
    .replace(/[ \-_‐‑]/g, '');
