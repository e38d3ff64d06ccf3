import * as fc from 'fast-check';
import { type Wanted, wantedBy } from '../../src/casefile/wanted.js';
import type { VisitDraft } from '../../src/keep/visit-draft.js';
import { visit } from '../../src/record/visit.js';
import { checkKeysOfLesion } from '../../src/casefile/check/lesions-declared.js';
import { checkKeysOfMark } from '../../src/casefile/check/check-animal.js';
import type { Animal } from '../../src/record/animal.js';
import { aboutWords } from '../../src/record/words.js';
import { lesionKinds } from '../../src/reference/lesions.js';
import { animal } from './made-for.js';

/** Text as a phone sends it: nothing blank around it. */
const line = fc
  .oneof(
    fc.string({ unit: 'grapheme', minLength: 1, maxLength: 20 }),
    fc.constantFrom(
      '<b>"x"</b>',
      "it's & 'so'",
      'yes',
      '12,5',
      '`a`',
      '{{ x }}',
      '0312',
      '  née  x',
      '2026-01-06',
    ),
  )
  .map((text) => text.replaceAll(/\p{Cc}/gu, ' ').trim())
  .filter((text) => text !== '');
const lines = fc
  .array(fc.oneof(line, fc.constant('')), { minLength: 1, maxLength: 3 })
  .map((all) => all.join('\n').trim())
  .filter((text) => text !== '');
const day = fc
  .integer({ min: 0, max: 800 })
  .map((n) => new Date(Date.UTC(2025, 0, 1 + n)).toISOString().slice(0, 10));

/** Anything that a question to the vet may be about. */
const anyAbout = fc.uniqueArray(
  fc.constantFrom(...aboutWords, ...Object.keys(animal.lesions), ...Object.keys(animal.marks ?? {})),
  { maxLength: 5 },
);

/** Anything the record model takes there; names are those of her lesions. */
function anyOf(wanted: Wanted): fc.Arbitrary<unknown> {
  switch (wanted.kind) {
    case 'text':
      return line;
    case 'free-text':
      return lines;
    case 'day':
      return day;
    case 'day-or-unknown':
      return fc.oneof(day, fc.constant('unknown'));
    case 'time':
      return fc.constantFrom('00:00', '09:30', '23:59');
    case 'short-name':
      return fc.constantFrom(...Object.keys(animal.lesions));
    case 'yes-no':
      return fc.boolean();
    case 'number':
      return fc.integer({ min: 0, max: (wanted.most ?? 800) * 4 }).map((quarters) => quarters / 4);
    case 'word':
      return fc.constantFrom(...wanted.words);
    case 'list':
      return wanted.of.kind === 'group'
        ? fc.array(anyOf(wanted.of), { maxLength: 4 })
        : fc.uniqueArray(anyOf(wanted.of), { maxLength: 5 });
    case 'group': {
      const required = [...wanted.keys].filter(([, key]) => key.required).map(([name]) => name);
      const model = Object.fromEntries([...wanted.keys].map(([name, key]) => [name, name === 'about' ? anyAbout : anyOf(key.wanted)])); // prettier-ignore
      return fc.record(model, { requiredKeys: required });
    }
    case 'named': {
      const names = [...Object.keys(animal.lesions), ...Object.keys(animal.marks ?? {})];
      return fc.record(Object.fromEntries(names.map((name) => [name, anyOf(wanted.of)])), {
        requiredKeys: [],
      });
    }
    default:
      throw new TypeError(`nothing drawn for ${wanted.kind}`);
  }
}

/** A visit by the record model, with what its own checks hold against keys and words taken out. */
export const anyDraft: fc.Arbitrary<VisitDraft> = fc
  .tuple(anyOf(wantedBy(visit)), fc.constantFrom(0, 1, 2, 3))
  .map(([drawn, gait]) => {
    const draft = drawn as VisitDraft & Record<string, unknown>;
    delete draft.amended;
    delete draft.photos;
    if (draft.gait !== undefined) draft.gait = gait;
    fitted(draft);
    return draft;
  })
  .filter((draft) => visit.safeParse(draft).success);

function fitted(draft: VisitDraft): void {
  const found = (draft.found ?? {}) as Record<string, Record<string, unknown>>;
  for (const [name, entry] of Object.entries(found)) {
    if (entry['joined'] === name) delete entry['joined'];
    const code = (entry['code'] ?? animal.lesions[name]?.code) as keyof typeof lesionKinds | undefined;
    if (code && typeof entry['state'] === 'string' && !lesionKinds[code].states.has(entry['state']))
      delete entry['state'];
    // What is said not to be so may be anywhere; a form offers it where it means something.
    for (const [key, value] of Object.entries(entry))
      if (value === false && ['wall-lowered', 'ran-up', 'opened-further', 'infected'].includes(key))
        entry[key] = true;
  }
  const now: Animal = { ...animal, visits: [draft] };
  for (const { path } of [...checkKeysOfLesion(now), ...checkKeysOfMark(now)]) {
    const [, , group, name = '', key] = path.map(String);
    if (group === 'found' && key !== undefined) delete found[name]?.[key];
  }
}
