import type { Animal } from '../record/animal.js';
import type { InboxEntry } from '../keep/inbox/inbox-entry.js';
import { sentenceCase } from '../words/day-and-place.js';
import { type Words, told } from '../reference/words.js';
import { labelWithPlace, optionOf, unitOf, type FormValues } from './field.js';
import { linkTo, type SaidPage } from './form-view.js';
import { linesBefore } from './known-of-animal.js';
import type { CaseWork } from '../schedule/case-work.js';

/** How a visit was kept. */
export type KeptHow = 'kept' | 'already' | 'instead';

interface KeptVisit {
  readonly work: CaseWork;
  readonly farmName: string;
  readonly entry: InboxEntry;
  readonly how: KeptHow;
  /** The record refuses it: it waits to be put right. */
  readonly beside: boolean;
}

/** A visit is in the inbox: what was understood, and what is to be done with it. */
export function keptPage(words: Words, { work, farmName, entry, how, beside }: KeptVisit): SaidPage {
  const { opens, pictures, visit } = entry;
  const animal = { ...work.record.animal, ...opens };
  const [called, farm] = [{ animal: animal.animal }, { farm: told(farmName) }];
  const facts = [...valuesOfVisit(visit, { ...opens, ...entry.declares })].map(([name, given]) => ({
    label: labelWithPlace(words, name),
    value: given.map((value) => valueOf(words, animal, name, value)).join(', '),
  }));
  const ofPictures = {
    label: words.say('form.part.photos'),
    value: words.say('form.kept.pictures', { count: pictures.length }),
  };
  return {
    page: 'said',
    language: words.language,
    title: words.say('form.title.kept', { ...called, ...farm }),
    heading: words.say('form.kept.heading'),
    lines: [
      words.say(how === 'already' ? 'form.kept.already' : 'form.kept.says', called),
      ...(how === 'instead' ? [words.say('form.kept.instead')] : []),
      words.say(beside ? 'form.kept.beside' : 'form.kept.next'),
    ],
    facts: pictures.length === 0 ? facts : [...facts, ofPictures],
    before: {
      heading: words.say('form.before.heading'),
      lines: opens ? [] : linesBefore(words, work, String(visit['date'])),
    },
    links: [
      linkTo('./', words.say('form.visit.back-farm', farm)),
      linkTo(`?sent=${entry.id}`, words.say('form.kept.change')),
      opens
        ? linkTo('+', words.say('form.animals.open', called))
        : linkTo(entry.animal, words.say('form.kept.again', called)),
    ],
  };
}

/** Why nothing was kept. */
export function troublePage(words: Words, message: string): SaidPage {
  const heading = words.say('form.trouble.heading');
  const nothing = { facts: [], before: { heading: '', lines: [] }, links: [] };
  return { page: 'said', language: words.language, title: heading, heading, lines: [message], ...nothing };
}

function valueOf(words: Words, animal: Animal, name: string, value: string): string {
  const unit = unitOf(words, name);
  if (unit !== '') return `${value} ${unit}`;
  const said = optionOf(words, animal, name, value);
  return said === value ? told(value) : sentenceCase(said);
}

/**
 * A visit as the answers of a form: what a browser would send had somebody filled it in so.
 *
 * Checked: tests/form/any-visit.test.ts
 * @example valuesOfVisit({ date: '2026-03-03', found: { a: { top: 21 } } }).get('found.a.top') // → ['21']
 */
export function valuesOfVisit(
  draft: Readonly<Record<string, unknown>>,
  declares: Readonly<Record<string, unknown>> = {},
): FormValues {
  const values = new Map<string, string[]>();
  const put = (name: string, value: unknown): void => {
    if (value === undefined) return;
    if (Array.isArray(value) && value.every((one) => typeof one === 'string')) values.set(name, value);
    else if (typeof value === 'object' && value !== null)
      for (const [key, inner] of Object.entries(value)) put(name === '' ? key : `${name}.${key}`, inner);
    else if (typeof value === 'boolean') values.set(name, [value ? 'yes' : 'no']);
    else if (typeof value === 'string' || typeof value === 'number') values.set(name, [String(value)]);
  };
  put('', draft);
  put('', declares);
  return values;
}
