import type { Animal } from '../record/animal.js';
import { codeOn } from '../record/code-of-lesion.js';
import { lesionCodes } from '../record/words.js';
import { lesionInWords, placeInWords } from '../words/lesion-in-words.js';
import { sentenceCase } from '../words/number-in-words.js';
import type { Words } from '../words/words.js';
import { formLayout } from './form-layout.js';

/** What a field is called on the page: by its key and where it stands. */
export function labelOf(words: Words, name: string): string {
  const parts = name.split('.').filter((part) => !/^\d+$/.test(part));
  const key = parts.at(-1) ?? '';
  const inner = parts.length > 1 ? `${parts[0]}.${key}` : '';
  if (inner !== '' && words.has(`form.in.${inner}`)) return words.say(`form.in.${inner}`);
  return words.has(`vocabulary.foot.${key}`)
    ? sentenceCase(words.say(`vocabulary.foot.${key}`))
    : words.say(`form.key.${key}`);
}

/** The same away from its place on the page: `a: Top`, `Blocks 2: Claw`. */
export function labelWithPlace(words: Words, name: string): string {
  const parts = name.split('.');
  const [group = '', inner = ''] = parts;
  const label = labelOf(words, name);
  if (parts.length === 1) return label;
  const whose = ['found', 'lesions', 'marks', 'feet'].includes(group) ? inner : labelOf(words, group);
  const number = /^\d+$/.test(inner) ? ` ${Number(inner) + 1}` : '';
  return `${whose}${number}: ${label}`;
}

/** A word of a closed list as the reader says it; a lesion by its name where names are chosen. */
export function optionOf(words: Words, animal: Animal, key: string, value: string): string {
  const code = lesionCodes.find((one) => one === value);
  if (key === 'code' && code) return sentenceCase(lesionInWords(words, code));
  for (const list of (formLayout.vocabulary[key] ?? 'none').split(' '))
    if (words.has(`vocabulary.${list}.${value}`)) return words.say(`vocabulary.${list}.${value}`);
  if (words.has(`form.word.${value}`)) return words.say(`form.word.${value}`);
  const isHers = animal.lesions[value] !== undefined || animal.marks?.[value] !== undefined;
  return isHers ? findingName(words, animal, value) : value;
}

/** A lesion by its short name, what it is called today, and where it is. */
export function lesionName(words: Words, animal: Animal, name: string): string {
  const lesion = animal.lesions[name];
  if (!lesion) return name;
  const code = codeOn(name, lesion, animal.visits, animal.visits.length - 1);
  return words.say('form.lesion.name', {
    name,
    lesion: lesionInWords(words, code),
    place: placeInWords(words, lesion.foot, lesion.claw),
  });
}

/** A lesion, a mark, or one first met, as the heading of its fields. */
export function findingName(words: Words, animal: Animal, name: string): string {
  if (animal.lesions[name]) return lesionName(words, animal, name);
  const mark = animal.marks?.[name];
  if (mark) return words.say('form.lesion.mark', { name, place: placeInWords(words, mark.foot, mark.claw) });
  return words.say(/^m\d+$/.test(name) ? 'form.lesion.new-mark' : 'form.lesion.new', { name });
}
