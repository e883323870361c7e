import slugify from '@sindresorhus/slugify';

/** Longest part of a file name that comes from a person's name [characters]. */
const LONGEST = 40;

/**
 * Name of a card's file, safe on any disk whatever the person is called: the number of the order, then the name in plain
 * letters: `001-anna-lind.pdf`. The number keeps it unique.
 *
 * @param row - number of the order, the first being 1
 * @param extension - without its point
 */
export function cardFileName(row: number, name: string | undefined, extension: string): string {
  const plain = slugify(name ?? '', { decamelize: false })
    .slice(0, LONGEST)
    .replace(/-+$/, '');
  const letters = /^[a-z0-9-]+$/.test(plain) ? plain : 'order';
  return `${String(row).padStart(3, '0')}-${letters}.${extension}`;
}
