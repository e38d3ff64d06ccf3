import type { Animal } from '../record/animal.js';
import type { InboxEntry } from '../keep/inbox/inbox-entry.js';
import { sentenceCase } from '../words/day-and-place.js';
import { type Words, told } from '../reference/words.js';
import { labelWithPlace, optionOf, unitOf, type FormValues } from './field.js';
import type { SaidPage } from './form-view.js';
import { linesBefore } from './known-of-animal.js';
import type { CaseWork } from '../schedule/case-work.js';

/** How a visit was kept. */
export type KeptHow = 'kept' | 'already' | 'instead';

/** A visit is in the inbox: what was understood, and what is to be done with it. */
export function keptPage(
  words: Words,
  {
    work,
    farmName,
    entry,
    how,
    beside,
  }: {
    readonly work: CaseWork;
    readonly farmName: string;
    readonly entry: InboxEntry;
    readonly how: KeptHow;
    readonly beside: boolean;
  },
): SaidPage {
  const { opens } = entry;
  const animal = { ...work.record.animal, ...opens };
  const values = valuesOfVisit(entry.visit, { ...opens, ...entry.declares });
  const facts = [...values].map(([name, given]) => ({
    label: labelWithPlace(words, name),
    value: given.map((value) => valueOf(words, animal, name, value)).join(', '),
  }));
  const { length: count } = entry.pictures;
  return {
    page: 'said',
    language: words.language,
    title: words.say('form.title.kept', { animal: animal.animal, farm: told(farmName) }),
    heading: words.say('form.kept.heading'),
    lines: [
      words.say(how === 'already' ? 'form.kept.already' : 'form.kept.says', { animal: animal.animal }),
      ...(how === 'instead' ? [words.say('form.kept.instead')] : []),
      words.say(beside ? 'form.kept.beside' : 'form.kept.next'),
    ],
    facts: [
      ...facts,
      ...(count === 0
        ? []
        : [{ label: words.say('form.part.photos'), value: words.say('form.kept.pictures', { count }) }]),
    ],
    before: {
      heading: words.say('form.before.heading'),
      lines: opens ? [] : linesBefore(words, work, String(entry.visit['date'])),
    },
    links: [
      { to: './', name: words.say('form.visit.back-farm', { farm: told(farmName) }), lines: [], loud: '' },
      { to: `?sent=${entry.id}`, name: words.say('form.kept.change'), lines: [], loud: '' },
      {
        to: opens ? '+' : entry.animal,
        name: words.say(opens ? 'form.animals.open' : 'form.kept.again', { animal: animal.animal }),
        lines: [],
        loud: '',
      },
    ],
  };
}

/** Why nothing was kept. */
export function troublePage(words: Words, message: string): SaidPage {
  return {
    page: 'said',
    language: words.language,
    title: words.say('form.trouble.heading'),
    heading: words.say('form.trouble.heading'),
    lines: [message],
    facts: [],
    before: { heading: '', lines: [] },
    links: [],
  };
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
