import { element, paragraphElement } from './element.js';
import { type Page, numberOf, writtenOn } from './page.js';

/** The farm: what is written down already, then her animals, those due first. */
export function drawList(page: Page, done: string): HTMLElement[] {
  const { data, words } = page;
  const group = (heading: string, isDue: boolean, empty: string): HTMLElement[] => {
    const animals = data.animals.filter((animal) => animal.isDue === isDue);
    if (animals.length === 0 && empty === '') return [];
    return [
      element('h2', {}, heading),
      animals.length === 0
        ? paragraphElement(empty)
        : element(
            'ul',
            { class: 'go' },
            ...animals.map(({ slug, number, lines }) =>
              link(`#a=${slug}`, number, lines, stateOf(page, slug)),
            ),
          ),
    ];
  };
  return [
    element('h1', { tabindex: '-1' }, data.farm),
    ...(done === '' ? [] : [element('p', { class: 'done', role: 'status' }, done)]),
    paragraphElement(words.say('form.file.made', { day: data.madeInWords }), 'quiet'),
    keeping(page),
    ...handOver(page),
    ...group(words.say('form.animals.due'), true, words.say('form.animals.none-due')),
    ...group(words.say('form.animals.others'), false, ''),
  ];
}

/** Whether the browser keeps what is typed, said before anything is. */
export function keeping({ visits, words }: Page): HTMLElement {
  return visits.isKept()
    ? paragraphElement(words.say('form.file.keeps'), 'quiet')
    : element('p', { class: 'loses', role: 'note' }, words.say('form.file.keeps-not'));
}

function handOver(page: Page): HTMLElement[] {
  const { words, visits } = page;
  const written = writtenOn(page);
  const begun = visits.all().filter((visit) => !visit.written);
  if (written.length + begun.length === 0) return [];
  const says = [
    ...(written.length === 0 ? [] : [words.say('form.file.written', { count: written.length })]),
    ...(begun.length === 0
      ? []
      : [
          words.say('form.file.begun', { animals: begun.map(({ slug }) => numberOf(page, slug)).join(', ') }),
        ]),
  ];
  return [
    element('ul', { class: 'go out' }, link('#text', words.say('form.file.hand-over'), says, undefined)),
  ];
}

function link(
  to: string,
  name: string,
  says: readonly string[],
  state: { readonly says: string; readonly loud: boolean } | undefined,
): HTMLElement {
  return element(
    'li',
    {},
    element(
      'a',
      { href: to },
      element('strong', {}, name),
      ...says.map((line) => element('span', {}, line)),
      ...(state ? [element('span', { class: state.loud ? 'loud' : 'stands' }, state.says)] : []),
    ),
  );
}

function stateOf({ visits, words }: Page, slug: string): { says: string; loud: boolean } | undefined {
  const hers = visits.all().filter((visit) => visit.slug === slug);
  if (hers.length === 0) return undefined;
  const isBegun = hers.some(({ written }) => !written);
  return { says: words.say(isBegun ? 'form.file.is-begun' : 'form.file.is-written'), loud: isBegun };
}
