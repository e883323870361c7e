/** Names of the groups of rows, in the order of the page; apart from the rows so that the help does not load them. */
export const GROUPS = [
  'charts',
  'losses',
  'other-cuts',
  'carryover',
  'ovens',
  'series',
  'lines',
  'handbook',
  'plans',
  'properties',
  'lethality',
] as const;

export type GroupName = (typeof GROUPS)[number];
