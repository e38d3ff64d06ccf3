import type { Farm } from '../record/farm.js';
import type { Practice } from '../record/practice.js';
import { urgencies, urgencyOf, type NoticeRuleId } from '../reference/notices.js';
import { standingWords } from '../reference/standing-words.js';
import { type Words, told } from '../reference/words.js';
import type { ActionBox } from './animal-page-data.js';

/** What the farm does if a block comes off early, and whom it tells. */
export function blockEarlyBox(words: Words, { business }: Practice): ActionBox {
  return {
    heading: words.say('book.animal.block-early'),
    items: [
      ...standingWords.blockEarly.map(({ key }) => ({ text: words.say(`caution.${key}`) })),
      ...call(words, business.trimmer ?? business.business, business.phone),
    ],
  };
}

/**
 * The signs on which the farm rings the vet, by how soon: what anybody may come to see on any cow. A prompt, never a
 * diagnosis.
 *
 * Checked: tests/book/farm-watch.test.ts
 */
export function callVetBox(words: Words, farm: Farm): ActionBox {
  const signs = standingWords.farmSigns;
  return {
    heading: words.say('book.animal.call-vet'),
    items: [
      ...urgencies.flatMap((urgency) => {
        const seen = signs.filter((id) => urgencyOf(id) === urgency);
        const lead = `${words.say(`notice.urgency.${urgency}`)}:`;
        return seen.length === 0 ? [] : [{ lead, text: signsInWords(words, seen) }];
      }),
      ...call(words, farm.vet?.practice ?? farm.vet?.name, farm.vet?.phone),
    ],
  };
}

function signsInWords(words: Words, [first, ...others]: readonly NoticeRuleId[]): string {
  const inRow = others.map((id) => words.say(`notice.in-row.${id}`));
  const signs = [words.say(`notice.rule.${first!}.title`), ...inRow];
  return words.say('book.animal.call-signs', { signs: words.semicolons(signs) });
}

function call(words: Words, name: string | undefined, phone: string | undefined) {
  return name && phone
    ? [{ text: words.say('book.animal.call', { name: told(name), phone: told(phone) }) }]
    : [];
}
