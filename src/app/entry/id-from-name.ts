/**
 * Which id does a thing get from its name?
 *
 * Small letters, figures and hyphens, so that it stands in addresses and files; a number behind it
 * where another one has it already.
 */

const LONGEST = 60;

/**
 * An id made of a name; empty where the name has nothing to make it of.
 *
 * @param taken ids in use
 * @example idFromName('Long Flat', ['long-flat']) // 'long-flat-2'
 */
export function idFromName(name: string, taken: readonly string[]): string {
  const plain = name
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, '-')
    .slice(0, LONGEST)
    .replace(/^-+|-+$/g, '');
  if (plain === '' || !taken.includes(plain)) return plain;
  let number = 2;
  while (taken.includes(`${plain}-${number}`)) number++;
  return `${plain}-${number}`;
}
