import views from 'yard/form.njk';
import { dayInWords } from '../../../words/day-and-place.js';
import { type LinkView, linkTo, type TextView } from '../../form-view.js';
import type { PageVisit } from './kept-visits.js';
import { type Page, keeping, numberOf, onPress, show, writtenOn } from './page.js';

/** All visits written down as one text, and the ways to hand it over. */
export function drawText(page: Page): void {
  const { data, words, visits } = page;
  const written = writtenOn(page);
  const begun = visits.all().filter((visit) => !visit.written);
  const text = written.map((one) => one.text).join('\n');
  // Such as: `quernholt-2026-06-16.txt`.
  const file = `${data.slug}-${written.at(-1)?.day ?? data.made}.txt`;
  const group = (key: string, links: readonly LinkView[]): TextView['groups'] =>
    links.length === 0 ? [] : [{ heading: words.say(`form.file.${key}`), empty: '', kind: 'small', links }];
  const visitOf = (visit: PageVisit, day: string): string =>
    words.say('form.file.visit-of', { animal: numberOf(page, visit), day: dayInWords(words, day) });
  const inIt = written.map((visit) => linkTo(`#v=${visit.id}`, '', [visitOf(visit, visit.day)]));
  const notInIt = begun.map((visit) => linkTo(`#v=${visit.id}`, '', [numberOf(page, visit)]));
  show(
    views.textOf({
      back: words.say('form.visit.back-farm', { farm: data.farm }),
      heading: words.say('form.file.text'),
      text,
      empty: words.say('form.file.none'),
      how: words.say('form.file.how'),
      copy: words.say('form.file.copy'),
      download: words.say('form.file.download'),
      label: words.say('form.file.as-text'),
      groups: [...group('in-it', inIt), ...group('not-in-it', notInIt)],
      ...keeping(page),
      clear: words.say('form.file.clear'),
      clearSays: words.say('form.file.clear-says'),
      clearNow: words.say('form.file.clear-now'),
    }),
  );
  const say = (key: string): void =>
    document.querySelector('.done')?.replaceChildren(words.say(`form.file.${key}`, { file }));
  onPress('copy', () => void copied(text).then((well) => say(well ? 'copied' : 'not-copied')));
  onPress('download', () => {
    download(text, file);
    say('downloaded');
  });
  onPress('clear', () => {
    visits.remove(written.map(({ id }) => id));
    page.goTo('');
  });
}

/** Not every browser lets a page opened as a file copy: the older way is tried too, and a refusal is reported. */
async function copied(text: string): Promise<boolean> {
  try {
    await navigator.clipboard.writeText(text);
    return true;
  } catch {
    const area = document.querySelector<HTMLTextAreaElement>('#text');
    area?.focus();
    area?.select();
    return document.execCommand('copy');
  }
}

function download(text: string, file: string): void {
  const address = URL.createObjectURL(new Blob([text], { type: 'text/plain;charset=utf-8' }));
  Object.assign(document.createElement('a'), { href: address, download: file }).click();
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
}
