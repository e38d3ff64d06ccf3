import { farmSealsInOrder, sealsInOrder } from '../../ledger/all-seals.js';
import { shortHead } from '../../ledger/head-of.js';
import { openSeals } from '../../ledger/open-seals.js';
import { daysToSeal } from '../../ledger/record-seal.js';
import type { FarmSeals } from '../../ledger/seals-of-farm.js';
import { fixedDays } from '../../reference/intervals.js';
import type { Words } from '../../words/words.js';
import type { TextList } from '../page-parts.js';

/** How a farm's records are sealed, how many are not or were late, and what a seal does not prove. */
export function composeSealing(words: Words, seals: FarmSeals | undefined): TextList {
  const heading = words.say('seal.heading');
  const proves = words.say('seal.nothing-before');
  if (!seals?.head) return { heading, items: [`${words.say('seal.not-sealed')} ${proves}`] };
  const all = [...farmSealsInOrder(seals), ...[...seals.animals.values()].flatMap(sealsInOrder)];
  const open = openSeals(seals).length;
  const days = all.flatMap((seal) => daysToSeal(seal) ?? []);
  const late = days.filter((count) => count > fixedDays('written-late')).length;
  return {
    heading,
    items: [
      `${words.say('seal.sealed', { count: seals.head.entries, head: onOneLine(shortHead(seals.head)) })} ${proves}`,
      ...(late > 0
        ? [words.say('seal.late', { count: late, of: days.length, days: fixedDays('written-late') })]
        : []),
      ...(open > 0 ? [words.say('seal.open', { count: open })] : []),
    ],
  };
}

/** What the foot of every sheet says: with the head, so that each copy bears witness. */
export function withHead(words: Words, running: string, seals: FarmSeals | undefined): string {
  const head = seals?.head;
  return head ? words.say('seal.running', { running, head: shortHead(head), count: head.entries }) : running;
}

/** With spaces that no line is broken at; whoever types it back may leave them out. */
function onOneLine(text: string): string {
  return text.replaceAll(' ', '\u00a0');
}
