import { phrase } from '../book/fact.js';
import type { Found } from '../record/found.js';
import type { CaseWork } from '../schedule/case-work.js';
import { mm } from '../words/number-in-words.js';
import type { Words } from '../words/words.js';

/** Kinds of reading that say no more than that it was read. */
const plain: ReadonlySet<string> = new Set(['first', 'grew', 'as-expected']);

/** What a reading was taken for, where it is more than a length that came down: ran up, held, opening up. */
export function readingKind(
  words: Words,
  { growth, closings }: Pick<CaseWork, 'growth' | 'closings'>,
  lesion: string,
  visit: number,
  found: Found,
): string | undefined {
  const gap = growth.lesions
    .find((one) => one.lesion === lesion)
    ?.readings.find((reading) => reading.visit === visit);
  const width = closings
    .find((one) => one.lesion === lesion)
    ?.readings.find((reading) => reading.visit === visit);
  if (gap?.kind === 'ran-up' && gap.ranUpMm !== undefined)
    return words.say('handover.reading.ran-up-mm', { mm: Math.round(gap.ranUpMm) });
  const kind = gap?.kind ?? width?.kind;
  if (kind !== undefined && !plain.has(kind)) return words.say(`handover.reading.${kind}`);
  return found['ran-up'] === true ? words.say('handover.reading.ran-up') : undefined;
}

/** What was measured of a lesion at one visit, in few words: its state, its lengths, its signs. */
export function measuredInShort(words: Words, found: Found): string {
  const say = (key: string, values: Readonly<Record<string, number>>) =>
    words.say(`handover.found.${key}`, values);
  const { top, wall, length, width, depth } = found;
  return phrase(
    found.stage ?? (found.state && words.say(`vocabulary.state.${found.state}`)),
    top === undefined
      ? undefined
      : wall === undefined
        ? say('top', { top })
        : say('top-of-wall', { top, wall }),
    length !== undefined && width !== undefined
      ? say('across', { length, width })
      : phrase(
          width === undefined ? undefined : say('width', { width }),
          length === undefined ? undefined : say('length', { length }),
        ),
    depth === undefined ? undefined : say('depth', { depth: mm(depth) }),
    found.infected === true && words.say('handover.found.infected'),
    found.joined !== undefined && words.say('handover.found.joined', { name: found.joined }),
    ...(found.signs ?? []).map((sign) => words.say(`vocabulary.sign.${sign}`)),
  ).replaceAll('; ', ', ');
}
