import { type Content, type LedgerKind, sameContent } from './ledger-entry.js';

/**
 * What a record is to the content it was sealed with.
 *
 * `grown`: it says all it said, and more, where more may come by and by. `amended`: it says otherwise, and owns it under
 * `amended`, by an entry that was not there at the last seal. `differs`: it says otherwise in silence.
 */
export type Fit = 'same' | 'grown' | 'amended' | 'differs';

/** Of these every key counts from the day they are sealed: what is put in later is a change too. */
const whole: readonly LedgerKind[] = ['visit', 'gait-round'];

/** Lists that entries may be added to, anywhere, and none taken from. */
const growing: readonly string[] = ['calvings', 'dried-off', 'earlier', 'gait-scale'];

/**
 * What a record is now to what was sealed of it.
 *
 * Shape:   kind, content as last sealed, content as it stands → how the two fit
 * Checked: tests/ledger/
 */
export function fitsSeal(kind: LedgerKind, sealed: Content, now: Content): Fit {
  const { amended: before = [], ...was } = sealed;
  const { amended: after = [], ...is } = now;
  const [then, since] = [before as unknown[], after as unknown[]];
  const keepsAmended = then.every((one, at) => sameContent(one, since[at]));
  if (keepsAmended && since.length > then.length) return 'amended';
  if (!keepsAmended) return 'differs';
  if (sameContent(was, is)) return 'same';
  if (whole.includes(kind)) return 'differs';
  const stays = Object.entries(was).every(
    ([key, value]) =>
      sameContent(value, is[key]) ||
      (growing.includes(key) && isWithin(value, is[key])) ||
      (kind === 'identity' && key === 'animal' && wasHerNumber(value, is)) ||
      (kind === 'picture' && key === 'file'),
  );
  return stays ? 'grown' : 'differs';
}

/** Whether all of a list still is in another, in its order. */
function isWithin(before: unknown, now: unknown): boolean {
  if (!Array.isArray(before) || !Array.isArray(now)) return false;
  let at = 0;
  for (const one of now) if (at < before.length && sameContent(before[at], one)) at += 1;
  return at === before.length;
}

function wasHerNumber(number: unknown, { earlier }: Content): boolean {
  return (
    Array.isArray(earlier) && earlier.some((one: { readonly animal?: unknown }) => one.animal === number)
  );
}
