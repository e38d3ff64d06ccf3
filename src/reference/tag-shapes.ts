import { z } from 'zod';
import { readShared } from './read-shared.js';
import { address } from './sourced.js';

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
