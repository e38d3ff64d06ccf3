import { correctionsInBook } from '../ledger/record-seal.js';
import { sealableAnimal } from '../ledger/sealable.js';
import { type AnimalSeals, sealsOfAnimal } from '../ledger/seals-of-animal.js';
import { type Animal, animal as animalSchema, type Episode } from '../record/animal.js';
import { placeOf } from '../record/key.js';
import { dayInWords } from '../words/day-and-place.js';
import { type Words, saidAt, told } from '../reference/words.js';
import type { Fact, FactList } from './page-parts.js';
import { fact } from './animal-page-data.js';
import { valueOf } from './work-in-words.js';
import { correctionInWords, whatInWords } from './seals/corrections-table.js';

/** Who she is, in one line under her number. */
export function identityLine(words: Words, animal: Animal): string {
  const first = animal.visits.find((visit) => visit.kind !== 'missed')?.date;
  return words.dots([
    animal.tag,
    told(animal.breed),
    calvingsInShort(words, animal),
    first && words.say('book.animal.with-us-since', { day: dayInWords(words, first) }),
  ]);
}

/** How often she has calved, and when last; undefined where nobody wrote it. */
export function calvingsInShort(words: Words, animal: Animal): string | undefined {
  if (!animal.calvings) return undefined;
  const count = animal.calvings.length + (animal['calved-before'] ?? 0);
  const last = animal.calvings.at(-1);
  if (count === 0) return words.say('book.animal.not-calved');
  return last
    ? words.say('book.animal.calved-last', { count, day: dayInWords(words, last) })
    : words.say('book.animal.calved', { count });
}

/** Everything her file declares about herself. A former number is printed, the former farm never. */
export function animalRecord(words: Words, animal: Animal, seals?: AnimalSeals): FactList {
  const identity = (Object.keys(animalSchema.shape) as (keyof Animal)[]).filter(
    (key) => placeOf(animalSchema, key).log === 'identity',
  );
  return {
    heading: words.say('book.animal.record'),
    facts: [
      ...identity.flatMap((key) => {
        const value = animal[key];
        const isNone = Array.isArray(value) && value.length === 0;
        const none = `book.animal.${key === 'calvings' ? 'not-calved' : 'none'}`;
        const said = value === undefined ? '' : isNone ? words.say(none) : valueOf(words, key, value, ', ');
        return fact(words, saidAt(words, 'log', `animal.${key}`) ?? `key.${key}.log`, said);
      }),
      ...(animal.earlier ?? []).map((former): Fact => ({
        label: words.say('key.earlier.log'),
        value: words.semicolons([
          former.animal ?? words.say('book.animal.number-not-known'),
          former.farm && words.say('book.animal.on-another-farm'),
          former.until && words.say('book.animal.until', { day: dayInWords(words, former.until) }),
        ]),
      })),
      ...(animal.episodes ?? []).map((episode, at): Fact => ({
        label: words.say('book.animal.episode', { number: at + 1 }),
        value: episodeInWords(words, episode),
      })),
      ...declaredCorrections(words, animal, seals),
    ],
  };
}

/** Corrections of who she is and of what is declared of her; those of visits are with them. */
function declaredCorrections(words: Words, animal: Animal, known: AnimalSeals | undefined): Fact[] {
  const { identity, lesions, marks, episodes } =
    known ??
    sealsOfAnimal(
      sealableAnimal(animal, () => undefined),
      undefined,
    );
  return [identity, ...lesions, ...marks, ...episodes].flatMap((seal) =>
    correctionsInBook(seal).map((correction) => ({
      label: words.say('seal.corrected'),
      value: words.semicolons([
        whatInWords(words, undefined, seal.kind, seal.now.content, seal.now.on),
        correctionInWords(words, correction),
      ]),
    })),
  );
}

function episodeInWords(words: Words, { ended, result, ...episode }: Episode): string {
  const on = (key: string, day: string | undefined) =>
    day && words.say(`book.animal.${key}`, { day: dayInWords(words, day) });
  const said = words.semicolons([
    on('lame-since', episode['lame-since']),
    episode['told-by'] && words.say('book.animal.told-by', { who: told(episode['told-by']) }),
    on('ended', ended),
    result && words.say(`vocabulary.result.${result}`),
    on('told-in-writing', episode['told-in-writing']),
  ]);
  return said || words.say('book.animal.episode-open');
}
