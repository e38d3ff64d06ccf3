import views from 'yard/form.njk';
import { type FormValues, labelOf } from '../../field.js';
import type { AnimalData } from '../farm-data.js';
import { visitAsText } from '../visit-as-text.js';
import { type FormFor, visitForm } from '../../visit-form.js';
import { visitParts } from '../../visit-parts.js';
import { animalMeant } from '../../../casefile/animal-meant.js';
import { dayInWords } from '../../../words/day-and-place.js';
import type { PageVisit } from './kept-visits.js';
import { type Page, focusOn, keeping, numberOf, onPress, show, writtenOn } from './page.js';

/** The form of a visit: a new one, or one that was begun or written down on this page. */
export function drawVisit(page: Page, animal: AnimalData, before: PageVisit | undefined): void {
  const visit = before ?? { id: page.newId(), slug: animal.slug, values: firstValues(page, animal) };
  fill(page, animal, { visit, values: new Map(visit.values), troubles: new Map() });
}

interface Filling {
  readonly visit: PageVisit;
  readonly values: FormValues;
  readonly troubles: ReadonlyMap<string, string>;
}

/** Draws the view with what is filled in. */
function fill(page: Page, animal: AnimalData, { visit, values, troubles }: Filling): void {
  const { words, visits } = page;
  const made = madeFor(page, animal);
  const showing = { words, animal: animal.record, values, troubles, held: new Map() };
  const list = [...troubles].map(([field, message]) => ({
    field,
    text: words.say('form.trouble.is', { label: labelOf(words, field), message }),
  }));
  show(
    views.visitOf({
      heading: words.say(animal.slug === '+' ? 'form.visit.new' : 'form.visit.heading', {
        animal: animal.number,
      }),
      back: words.say('form.visit.back-farm', { farm: page.data.farm }),
      backTo: '#',
      identity: animal.identity,
      due: animal.due,
      last: animal.last,
      ...(visit.written && {
        change: words.say('form.file.change', { day: dayInWords(words, visit.written.day) }),
        ...(animal.slug === '+' ? {} : { another: words.say('form.file.another') }),
      }),
      how: [words.say('form.visit.how'), words.say('form.file.no-pictures')],
      problems: list.length === 0 ? '' : { says: words.say('form.file.mend'), list },
      ...visitParts(visitForm(made, values), showing),
      send: words.say('form.file.write'),
      ...keeping(page),
      moreRoom: words.say('form.visit.more-room'),
      moreRoomSays: words.say('form.file.more-room-says'),
    }),
  );
  const form = document.forms[0]!;
  const keep = (): void => visits.put({ id: visit.id, slug: visit.slug, values: [...valuesIn(form)] });
  form.addEventListener('submit', (event) => event.preventDefault());
  form.addEventListener('input', keep);
  form.addEventListener('change', ({ target }) => {
    // Another name of a lesion, other words that fit.
    if (!(target instanceof HTMLSelectElement) || !/^(?:found|lesions)\..+\.code$/.test(target.name)) return;
    fill(page, animal, { visit, values: valuesIn(form), troubles: new Map() });
    document.getElementById(target.id)?.focus();
  });
  onPress('another', () => page.goTo(`n=${animal.slug}`));
  onPress('more', (part) => {
    const more = new Map([...valuesIn(form), ['more', [part]]]);
    fill(page, animal, { visit, values: more, troubles: new Map() });
    document.getElementById(`fold-${part}`)?.scrollIntoView();
  });
  // What was asked about and is written down once more is right.
  const asked = new Set<string>(troubles.values());
  onPress('send', () => {
    const given = valuesIn(form);
    const wrong = writeDown(page, animal, visit, given, asked);
    if (wrong.size === 0) return;
    fill(page, animal, { visit, values: given, troubles: wrong });
    focusOn('.wrong');
  });
  for (const link of document.querySelectorAll<HTMLAnchorElement>('.wrong a'))
    link.addEventListener('click', jump);
}

/** Leads to the field of what is wrong: the address tells which view is shown, and so is not for jumping here. */
function jump(this: HTMLAnchorElement, event: Event): void {
  event.preventDefault();
  const at = document.getElementById(this.hash.slice(1));
  for (let fold = at?.closest('details'); fold; fold = fold.parentElement?.closest('details'))
    fold.open = true;
  at?.scrollIntoView();
  (at?.matches('input, select, textarea') ? at : at?.querySelector<HTMLElement>('input, select'))?.focus();
}

/** Writes the text of a visit down and goes back to the list; what is wrong is shown beside its field. */
function writeDown(
  page: Page,
  animal: AnimalData,
  visit: PageVisit,
  values: FormValues,
  asked: ReadonlySet<string>,
): ReadonlyMap<string, string> {
  const { data, words } = page;
  const { before } = animal;
  const number = numberOf(page, { slug: visit.slug, values: [...values] });
  if (
    visit.slug === '+' &&
    animalMeant(
      data.animals.map((one) => ({ slug: one.slug, animal: one.record })),
      number,
    ).meant.length > 0
  )
    return new Map([['animal', words.say('form.trouble.there', { animal: number })]]);
  const ifRight = (doubt: string) => words.say('form.file.if-right', { doubt });
  const of = { farm: data.slug, slug: visit.slug };
  const written = visitAsText(of, madeFor(page, animal), values, page.today(), (doubt) =>
    asked.has(ifRight(doubt)),
  );
  if (written.outcome === 'again') return written.troubles;
  if (written.outcome === 'asked')
    return new Map([...written.doubts].map(([field, doubt]) => [field, ifRight(doubt)]));
  const { text, day } = written;
  if (
    writtenOn(page).some(
      (other) => numberOf(page, other) === number && other.day === day && other.id !== visit.id,
    )
  )
    return new Map([['date', words.say('form.file.day-there')]]);
  if (day > page.today()) return new Map([['date', words.say('form.file.day-to-come')]]);
  page.visits.put({ id: visit.id, slug: visit.slug, values: [...values], written: { text, day } });
  page.goTo(
    '',
    words.say(before.length === 0 ? 'form.file.done' : 'form.file.done-before', { animal: number, day: dayInWords(words, day), before: before.join(' · ') }), // prettier-ignore
  );
  return new Map();
}

function madeFor({ data }: Page, animal: AnimalData): FormFor {
  return {
    animal: animal.record,
    gaitScale: data.gaitScale === '' ? undefined : data.gaitScale,
    asNote: true,
    onHer: animal.onHer,
    ...(animal.slug === '+' ? { opens: true } : {}),
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
