import type { CarryingClaw } from '../../record/words.js';
import { isFiller, skip } from '../note-text.js';
import { type Phrase, phraseAt } from '../phrase.js';
import type { VisitReader } from '../visit-reader.js';

/** `carrying claw bruised`: goes to the block that came off, told before or after it. */
export function readCarrying(r: VisitReader, at: number, phrase: Phrase): number | undefined {
  const { tokens } = r.note;
  let next = skip(tokens, phrase.next);
  while (tokens[next] && isFiller(tokens[next]!)) next += 1;
  const value = phraseAt(tokens, next, 'carrying-claw');
  if (!value) return undefined;
  if (r.carrying) r.askTwice(at, value.next, 'the carrying claw');
  r.carrying = { from: at, to: value.next, value: value.value };
  attachCarrying(r);
  return value.next;
}

const comesOff = new Set(['removed', 'lost', 'replaced']);

/** Hands the carrying claw to its block as soon as both are there; asks at the end where no block came off. */
export function attachCarrying(r: VisitReader, atEnd = false): void {
  if (!r.carrying) return;
  const { from, to, value } = r.carrying;
  const off = (r.draft.blocks ?? []).filter(
    (block) => comesOff.has(block.event) && block['carrying-claw'] === undefined,
  );
  const block = off.at(-1);
  if (block) {
    block['carrying-claw'] = value as CarryingClaw;
    r.say(from, to, `carrying claw ${value}, ${block.foot} ${block.claw}`);
    r.carrying = undefined;
  } else if (atEnd) {
    r.say(from, to, 'waits for the answer');
    r.ask(from, to, {
      id: 'carrying-without-block',
      ask: 'the carrying claw is told, and no block came off',
      mend: 'say which block came off, or put this after `note:`',
    });
  }
}
