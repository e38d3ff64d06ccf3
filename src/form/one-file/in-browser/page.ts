import type { AnimalData, FarmData } from '../farm-data.js';
import { type Words, wordsFrom } from '../../../reference/words.js';
import { type KeptVisits, keptVisits, type PageVisit } from './kept-visits.js';

/** What every view of the page is drawn from. */
export interface Page {
  readonly data: FarmData;
  readonly words: Words;
  readonly visits: KeptVisits;
  readonly animalOf: (slug: string) => AnimalData | undefined;
  /** The day it is where the reader is. */
  readonly today: () => string;
  /** A name for a visit begun now; later ones sort behind earlier ones. */
  readonly newId: () => string;
  /** Shows another view; `says` what has just been done, told once there. */
  readonly goTo: (place: string, says?: string) => void;
}

export function pageOf(data: FarmData, { goTo }: Pick<Page, 'goTo'>): Page {
  return {
    data,
    words: wordsFrom(data.language, new Map(Object.entries(data.strings))),
    visits: keptVisits(data.slug),
    animalOf: (slug) => (slug === '+' ? nobody : data.animals.find((animal) => animal.slug === slug)),
    today: () => {
      const now = new Date();
      const two = (n: number): string => String(n).padStart(2, '0');
      return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
    },
    newId: () => {
      const [chance = 0] = crypto.getRandomValues(new Uint32Array(1));
      return `${Date.now().toString(36).padStart(9, '0')}-${chance.toString(36)}`;
    },
    goTo,
  };
}

/** Visits whose text is there, by day: what is handed over. */
export function writtenOn({ visits }: Page) {
  return visits
    .all()
    .flatMap(({ written, ...visit }) => (written ? [{ ...visit, ...written }] : []))
    .toSorted((a, b) => (a.day < b.day ? -1 : a.day > b.day ? 1 : 0));
}

/** A cow without a case. */
const nobody: AnimalData = {
  slug: '+', number: '', isDue: false, lines: [], identity: [], due: { heading: '', lines: [], moreLabel: '' }, last: '', before: [],
  kind: 'first', record: { casefile: 1, animal: '', lesions: {}, visits: [] }, onHer: { blocks: [], wraps: [] },
}; // prettier-ignore

/** What an animal is called here: as she is named on the form that opens her case; one that is on file no longer by the name of her file. */
export function numberOf({ animalOf }: Page, { slug, values }: Pick<PageVisit, 'slug' | 'values'>): string {
  const typed = slug === '+' ? values.find(([name]) => name === 'animal')?.[1][0]?.trim() : undefined;
  return (typed ?? animalOf(slug)?.number) || slug;
}

/** Whether the browser keeps what is typed, said before anything is. */
export function keeping({ visits, words }: Page): { keeps: string } | { keepsNot: string } {
  return visits.isKept()
    ? { keeps: words.say('form.file.keeps') }
    : { keepsNot: words.say('form.file.keeps-not') };
}

/** Shows what a template gave, which has escaped all that a record says. The parser runs nothing and loads nothing. */
export function show(html: { readonly toString: () => string }): void {
  const { body } = new DOMParser().parseFromString(html.toString(), 'text/html');
  document.querySelector('main')?.replaceChildren(...body.childNodes);
}

/** Moves to a heading or a part of the view, which no key leads to. */
export function focusOn(selector: string): void {
  const at = document.querySelector<HTMLElement>(selector);
  at?.setAttribute('tabindex', '-1');
  at?.focus();
}

/** What a press of a button of this name does, given its value. */
export function onPress(name: string, act: (value: string) => void): void {
  for (const button of document.querySelectorAll<HTMLButtonElement>(`button[name="${name}"]`))
    button.addEventListener('click', () => act(button.value));
}
