import type { Phrase } from '../phrase.js';
import type { VisitReader } from '../visit-reader.js';
import type { FixtureTold } from './fixture-told.js';

/** `block on`, and by her file one was on: the same one, or a new one? */
export function askOn(
  r: VisitReader,
  from: number,
  phrase: Phrase,
  told: FixtureTold,
  what: 'block' | 'wrap',
): void {
  const start = phrase.next - 1;
  r.ask(from, told.next, {
    id: `${what}-on-twice`,
    ask: `by her file a ${what} was on there already: is it the same one, or a new one?`,
    mend: `write \`${what} still on\`, \`${what} replaced\` or \`${what} fitted\``,
    replace: [start, phrase.next],
    choices: [
      { label: 'the same, still on', text: `${what} still on` },
      { label: 'a new one for the old', text: `${what} replaced` },
      { label: 'a new one; the old was off', text: `${what} fitted` },
    ],
  });
}
