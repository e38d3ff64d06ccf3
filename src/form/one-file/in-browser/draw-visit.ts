import type { FormValues } from '../../field.js';
import type { AnimalData } from '../farm-data.js';
import { visitAsText } from '../visit-as-text.js';
import { type FormFor, visitForm } from '../../visit-form.js';
import { visitParts } from '../../visit-parts.js';
import { dayInWords } from '../../../words/number-in-words.js';
import { drawField } from './draw-field.js';
import { keeping } from './draw-list.js';
import { drawTroubles } from './draw-troubles.js';
import { button, element, lineElements, paragraphElement } from './element.js';
import type { PageVisit } from './kept-visits.js';
import { type Page, numberOf, writtenOn } from './page.js';

/** The form of a visit: a new one, or one that was begun or written down on this page. */
export function drawVisit(page: Page, animal: AnimalData, before: PageVisit | undefined): HTMLElement[] {
  const { words } = page;
  const form = element('form', { novalidate: true });
  const visit = before ?? { id: page.newId(), slug: animal.slug, values: firstValues(page, animal) };
  const filling = { visit, troubles: new Map() };
  fill(page, animal, form, { ...filling, values: new Map(visit.values) });
  form.addEventListener('submit', (event) => event.preventDefault());
  form.addEventListener('input', () =>
    page.visits.put({ id: visit.id, slug: visit.slug, values: [...valuesIn(form)] }),
  );
  form.addEventListener('change', ({ target }) => {
    // Another name of a lesion, other words that fit.
    if (!(target instanceof HTMLSelectElement) || !/^found\..+\.code$/.test(target.name)) return;
    fill(page, animal, form, { ...filling, values: valuesIn(form) });
    document.getElementById(target.id)?.focus();
  });
  return [
    element(
      'p',
      { class: 'back' },
      element('a', { href: '#' }, words.say('form.visit.back-farm', { farm: page.data.farm })),
    ),
    element('h1', { tabindex: '-1' }, words.say('form.visit.heading', { animal: animal.number })),
    ...animal.identity.map((line) => paragraphElement(line, 'quiet')),
    element(
      'section',
      { class: 'known' },
      element('h2', {}, animal.due.heading),
      lineElements(animal.due.lines),
      element('h2', {}, animal.last.heading),
      ...(animal.last.lines.length === 0 ? [] : [lineElements(animal.last.lines)]),
    ),
    ...(before?.written
      ? [
          paragraphElement(words.say('form.file.change', { day: dayInWords(words, before.written.day) })),
          button(words.say('form.file.another'), () => page.goTo(`n=${animal.slug}`), true),
        ]
      : []),
    form,
  ];
}

interface Filling {
  readonly visit: PageVisit;
  readonly values: FormValues;
  readonly troubles: ReadonlyMap<string, string>;
}

/** Draws the fields anew with what is filled in. */
function fill(
  page: Page,
  animal: AnimalData,
  form: HTMLFormElement,
  { visit, values, troubles }: Filling,
): void {
  const { words } = page;
  const made = madeFor(page, animal);
  const showing = { words, animal: animal.record, values, troubles, held: new Map() };
  const parts = visitParts(visitForm(made, values), showing, (lesion) => animal.expected[lesion]);
  // What was asked about and is written down once more is right.
  const asked = new Set<string>(troubles.values());
  const write = button(words.say('form.file.write'), () => {
    const given = valuesIn(form);
    const wrong = writeDown(page, made, visit, given, asked);
    if (wrong.size === 0) return;
    fill(page, animal, form, { visit, values: given, troubles: wrong });
    form.querySelector<HTMLElement>('.wrong')?.focus();
  });
  const room = button(
    words.say('form.visit.more-room'),
    () => {
      const more = new Map([...valuesIn(form), ['more', ['more']]]);
      fill(page, animal, form, { visit, values: more, troubles: new Map() });
    },
    true,
  );
  form.replaceChildren(
    ...drawTroubles(page, troubles),
    paragraphElement(words.say('form.visit.how'), 'quiet'),
    paragraphElement(words.say('form.file.no-pictures'), 'quiet'),
    ...parts.map(({ heading, fields, folded, foldLabel, foldOpen }) =>
      element(
        'section',
        { class: 'part' },
        element('h2', {}, heading),
        ...fields.map(drawField),
        ...(folded.length === 0
          ? []
          : [
              element(
                'details',
                { open: foldOpen },
                element('summary', {}, foldLabel),
                ...folded.map(drawField),
              ),
            ]),
      ),
    ),
    element('div', { class: 'send' }, write),
    keeping(page),
    element(
      'div',
      { class: 'again' },
      room,
      paragraphElement(words.say('form.file.more-room-says'), 'quiet'),
    ),
  );
  for (const fold of form.querySelectorAll<HTMLDetailsElement>('details.expected'))
    fold.addEventListener('toggle', () => seenFirst(form, fold));
}

/** Who opens what was expected before a length of it is typed has seen it first, and that is ticked. */
function seenFirst(form: HTMLFormElement, fold: HTMLDetailsElement): void {
  if (!fold.open) return;
  const lengths = ['top', 'length', 'width'].map((key) => `f-${fold.dataset['of'] ?? ''}.${key}`);
  const isMeasured = lengths.some((id) => {
    const input = document.getElementById(id);
    return input instanceof HTMLInputElement && input.value.trim() !== '';
  });
  const tick = fold.querySelector<HTMLInputElement>('input[name="saw-expected"]');
  if (isMeasured || !tick || tick.checked) return;
  tick.checked = true;
  form.dispatchEvent(new Event('input'));
}

/** Writes the text of a visit down and goes back to the list; what is wrong stands by the name of its field. */
function writeDown(
  page: Page,
  made: FormFor,
  visit: PageVisit,
  values: FormValues,
  asked: ReadonlySet<string>,
): ReadonlyMap<string, string> {
  const { data, words } = page;
  const ifRight = (doubt: string) => words.say('form.file.if-right', { doubt });
  const of = { farm: data.slug, slug: visit.slug };
  const written = visitAsText(of, made, values, page.today(), (doubt) => asked.has(ifRight(doubt)));
  if (written.outcome === 'again') return written.troubles;
  if (written.outcome === 'asked')
    return new Map([...written.doubts].map(([field, doubt]) => [field, ifRight(doubt)]));
  const { text, day } = written;
  if (
    writtenOn(page).some((other) => other.slug === visit.slug && other.day === day && other.id !== visit.id)
  )
    return new Map([['date', words.say('form.file.day-there')]]);
  if (day > page.today()) return new Map([['date', words.say('form.file.day-to-come')]]);
  page.visits.put({ id: visit.id, slug: visit.slug, values: [...values], written: { text, day } });
  page.goTo(
    '',
    words.say('form.file.done', { animal: numberOf(page, visit.slug), day: dayInWords(words, day) }),
  );
  return new Map();
}

function madeFor({ data }: Page, animal: AnimalData): FormFor {
  return {
    animal: animal.record,
    gaitScale: data.gaitScale === '' ? undefined : data.gaitScale,
    asNote: true,
  };
}

/** The day, what kind of visit it is and who is there, as far as that is known. */
function firstValues(page: Page, { kind }: AnimalData): PageVisit['values'] {
  const lastBy = page.visits
    .all()
    .at(-1)
    ?.values.find(([name]) => name === 'by')?.[1];
  return [
    ['date', [page.today()]],
    ['kind', [kind]],
    ['by', lastBy ?? [page.data.trimmer]],
  ];
}

function valuesIn(form: HTMLFormElement): FormValues {
  const values = new Map<string, string[]>();
  for (const [name, given] of new FormData(form))
    if (typeof given === 'string') values.set(name, [...(values.get(name) ?? []), given]);
  return values;
}
