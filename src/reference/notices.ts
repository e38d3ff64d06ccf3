import { z } from 'zod';
import { readShared } from './read-shared.js';
import { address, sourcedNumber } from './sourced.js';

/** How soon: work stops and somebody stays; the same day; at this visit. In order of urgency. */
export const urgencies = ['stop-work', 'same-day', 'notice'] as const;
export type Urgency = (typeof urgencies)[number];

export const noticeRuleIds = [
  'blisters',
  'several-animals-ill',
  'swollen-above-foot',
  'swollen-above-wrap',
  'swollen-and-hot',
  'pus-with-swelling',
  'pus-near-coronet',
  'pus-top-not-reached',
  'coronet-hot-or-lame',
  'bone',
  'tendon-or-joint',
  'toe-turned-up',
  'not-bearing',
  'severest-score',
  'worse-after-work',
  'lame-nothing-found',
  'bleeding-not-stopping',
  'off-feed-hot-or-down',
  'maggots',
  'new-foul',
  'necrosis',
  'infected',
  'raw-two-visits',
  'pus-after-opening',
  'at-coronet',
  'ran-up',
  'held',
  'lame-off-block',
  'long-on-blocks',
  'no-sound-claw',
  'several-feet',
  'live-tissue-or-surgery',
] as const;
export type NoticeRuleId = (typeof noticeRuleIds)[number];

const noticeRule = z.strictObject({
  id: z.enum(noticeRuleIds),
  urgency: z.enum(urgencies),
  /** Worked out from the record, or something only a person at the cow can see. */
  from: z.enum(['record', 'person']),
  /**
   * How it ends. `signs`: with the signs it is based on; `look`: by a later look that does not bear it out; `score`: by a score
   * below lame, off the block for a week; `two-lifts`: by two such lifts at least a week apart. The vet's word ends each.
   */
  ends: z.enum(['signs', 'look', 'score', 'two-lifts']),
  limits: z.record(z.string(), sourcedNumber).optional(),
});
export type NoticeRule = z.infer<typeof noticeRule>;

/**
 * The rules on which the veterinary surgeon is brought in, most urgent first. Their words and reasons are
 * under `notice.rule.ID` in the words of the language.
 *
 * Source:  shared/notices.json
 * Checked: tests/schedule/shared-data.test.ts
 */
export const noticeRules: readonly NoticeRule[] = readShared(
  'notices.json',
  z.strictObject({ address, rules: z.array(noticeRule) }),
).rules;

/** Position in the order of urgency, and within it as listed: smaller is more urgent. */
export function noticeRank(rule: NoticeRuleId): number {
  return noticeRuleIds.indexOf(rule);
}

/** @example urgencyOf('held') // → 'notice' */
export function urgencyOf(rule: NoticeRuleId): Urgency {
  return ruleOf(rule).urgency;
}

/** @example ruleEnds('bone') // → 'signs' */
export function ruleEnds(rule: NoticeRuleId): NoticeRule['ends'] {
  return ruleOf(rule).ends;
}

/** A rule's own number, as in `noticeLimit('pus-near-coronet', 'top')` // → 10 (mm) */
export function noticeLimit(rule: NoticeRuleId, limit: string): number {
  const number = ruleOf(rule).limits?.[limit];
  if (!number) throw new RangeError(`the rule "${rule}" has no limit "${limit}"`);
  return number.value;
}

const byId = new Map(noticeRules.map((rule) => [rule.id, rule]));

function ruleOf(rule: NoticeRuleId): NoticeRule {
  const found = byId.get(rule);
  if (!found) throw new RangeError(`no notice rule "${rule}" in shared/notices.json`);
  return found;
}
