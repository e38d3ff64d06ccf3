import views from 'yard/form.njk';
import { type LinkView, linkTo, type ListView } from '../../form-view.js';
import type { PageVisit } from './kept-visits.js';
import { type Page, keeping, numberOf, show, writtenOn } from './page.js';

/** The farm: what is written down already, then her animals, those due first. */
export function drawList(page: Page, done: string): void {
  const { data, words } = page;
  const group = (heading: string, empty: string, wanted: boolean): ListView['groups'] => {
    const animals = data.animals.filter(({ isDue }) => isDue === wanted);
    const links = animals.map(({ slug, number, lines }) => ({
      ...linkTo(`#a=${slug}`, number, lines),
      ...stateOf(page, (visit) => visit.slug === slug),
    }));
    return links.length === 0 && empty === ''
      ? []
      : [{ heading, links, empty: links.length === 0 ? empty : '' }];
  };
  show(
    views.listOf({
      heading: data.farm,
      done,
      notes: [words.say('form.file.made', { day: data.madeInWords })],
      ...keeping(page),
      groups: [
        ...handOver(page),
        { heading: '', empty: '', kind: 'small', links: newCases(page) },
        ...group(words.say('form.animals.due'), words.say('form.animals.none-due'), true),
        ...group(words.say('form.animals.others'), '', false),
      ],
    }),
  );
}

function handOver(page: Page): ListView['groups'] {
  const { words, visits } = page;
  const { length: count } = writtenOn(page);
  const begun = visits.all().filter((visit) => !visit.written);
  if (count + begun.length === 0) return [];
  const animals = begun.map((visit) => numberOf(page, visit)).join(', ');
  const lines = [
    ...(count === 0 ? [] : [words.say('form.file.written', { count })]),
    ...(animals === '' ? [] : [words.say('form.file.begun', { animals })]),
  ];
  const link = linkTo('#text', words.say('form.file.hand-over'), lines);
  return [{ heading: '', empty: '', kind: 'out', links: [link] }];
}

/** The way to open a case, and those opened on this page. */
function newCases(page: Page): LinkView[] {
  const opened = page.visits.all().filter(({ slug }) => slug === '+');
  return [
    linkTo('#n=+', '', [page.words.say('form.animals.open')]),
    ...opened.map((visit) => ({
      ...linkTo(`#v=${visit.id}`, numberOf(page, visit)),
      ...stateOf(page, ({ id }) => id === visit.id),
    })),
  ];
}

function stateOf({ visits, words }: Page, isHers: (visit: PageVisit) => boolean) {
  const hers = visits.all().filter(isHers);
  const isBegun = hers.some(({ written }) => !written);
  return {
    loud: isBegun ? words.say('form.file.is-begun') : '',
    stands: isBegun || hers.length === 0 ? '' : words.say('form.file.is-written'),
  };
}
