import { nearest } from './nearest.js';
import { plain, QUANTITY_LIMIT, refuse } from './text.js';

/**
 * Reads a name out of a fixed list; capitals, spaces, hyphens and underscores do not matter: `Medium Rare` is `medium-rare`.
 *
 * @param choices - the names, as the program spells them
 * @param option - the option the text was given to, `--doneness`
 * @returns the name as it stands in `choices`
 * @throws RoastError `unknown-name`, listing all names, with the nearest as a hint when one is near
 */
export function readChoice<Name extends string>(
  text: string,
  choices: readonly Name[],
  option: string,
): Name {
  const reading = { option, text, accepted: choices.join(', ') };
  const typed = text.length > QUANTITY_LIMIT ? '' : bare(text);
  const choice = typed === '' ? undefined : choices.find((name) => bare(name) === typed);
  if (choice !== undefined) return choice;
  const near = nearest(typed, choices.map(bare));
  const name = choices.find((each) => bare(each) === near);
  const hint = name === undefined ? undefined : `did you mean ${name}?`;
  return refuse(reading, 'unknown-name', 'there is no such name', hint);
}

function bare(name: string): string {
  return plain(name)
    .toLowerCase()
    .replace(/[ \-_‐‑]/g, '');
}
