import views from 'yard/form.njk';
import type { ListView } from '../../form-view.js';
import { type Page, keeping, numberOf, show, writtenOn } from './page.js';

/** The farm: what is written down already, then her animals, those due first. */
export function drawList(page: Page, done: string): void {
  const { data, words } = page;
  const group = (heading: string, empty: string, wanted: boolean): ListView['groups'] => {
    const animals = data.animals.filter(({ isDue }) => isDue === wanted);
    const links = animals.map(({ slug, number, lines }) => ({
      to: `#a=${slug}`,
      name: number,
      lines,
      ...stateOf(page, slug),
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
  const animals = begun.map(({ slug }) => numberOf(page, slug)).join(', ');
  const lines = [
    ...(count === 0 ? [] : [words.say('form.file.written', { count })]),
    ...(animals === '' ? [] : [words.say('form.file.begun', { animals })]),
  ];
  const link = { to: '#text', name: words.say('form.file.hand-over'), lines, loud: '' };
  return [{ heading: '', empty: '', kind: 'out', links: [link] }];
}

function stateOf({ visits, words }: Page, slug: string): { readonly loud: string; readonly stands: string } {
  const hers = visits.all().filter((visit) => visit.slug === slug);
  const isBegun = hers.some(({ written }) => !written);
  return {
    loud: isBegun ? words.say('form.file.is-begun') : '',
    stands: isBegun || hers.length === 0 ? '' : words.say('form.file.is-written'),
  };
}
