import { z } from 'zod';
import { readShared } from './read-shared.js';
import { address } from './sourced.js';
import { noticeRuleIds } from './notices.js';

const { months } = readShared(
  'months.json',
  z.strictObject({ about: z.string(), months: z.record(z.string(), z.array(z.string())) }),
);

/** A month by any of its names, in small letters, as its number. @example monthNumbers.get('sept') // → 9 */
export const monthNumbers: ReadonlyMap<string, number> = new Map(
  Object.entries(months).flatMap(([number, names]) => names.map((name) => [name, Number(number)])),
);

const shape = z.strictObject({
  /** Of the mark without its spaces and hyphens. */
  shape: z.string(),
  said: z.string(),
  example: z.string(),
});

const shared = readShared(
  'tag-shapes.json',
  z.strictObject({
    address,
    tags: z.array(shape.extend({ scheme: z.string(), begins: z.string() })),
    electronic: shape,
  }),
);

/** What a mark should look like, in words, with an invented example. */
interface ExpectedShape {
  readonly said: string;
  readonly example: string;
}

/**
 * The shape an official tag misses, by the scheme it begins like; undefined where it fits or begins like none.
 *
 * Source:  shared/tag-shapes.json
 * Checked: tests/reference/tag-shapes.test.ts
 * @example missedTagShape('UK 000123 402086') // → undefined
 */
export function missedTagShape(tag: string): ExpectedShape | undefined {
  const bare = tag.replaceAll(/[\s-]/g, '').toUpperCase();
  const scheme = shared.tags.find(({ begins }) => new RegExp(begins).test(bare));
  return scheme && !new RegExp(scheme.shape).test(bare) ? scheme : undefined;
}

/** The shape an electronic number misses; undefined where it fits. @example missedElectronicShape('999000000402086') // → undefined */
export function missedElectronicShape(number: string): ExpectedShape | undefined {
  const bare = number.replaceAll(/[\s-]/g, '');
  return new RegExp(shared.electronic.shape).test(bare) ? undefined : shared.electronic;
}

const standingWord = z.strictObject({ key: z.string(), address });
/** A sentence that stands in every book; its words are under `caution.KEY`. */
export type StandingWordEntry = z.infer<typeof standingWord>;

/**
 * The words that go in every book, each with what it rests on: cautions, before she travels, at the footbath, when a
 * block comes off early, between farms. And the rules of `notices.json` whose sign the farm itself may come to
 * see on any cow, and rings for at once.
 *
 * Source:  shared/standing-words.json
 * Checked: tests/schedule/shared-data.test.ts
 */
export const standingWords = readShared(
  'standing-words.json',
  z.strictObject({
    cautions: z.array(standingWord),
    travel: z.array(standingWord),
    footbath: z.array(standingWord),
    blockEarly: z.array(standingWord),
    farmSigns: z.array(z.enum(noticeRuleIds)),
    betweenFarms: z.array(standingWord),
  }),
);
