import { dayInWords } from '../../../words/number-in-words.js';
import { keeping } from './draw-list.js';
import { button, element, paragraphElement } from './element.js';
import { type Page, numberOf, writtenOn } from './page.js';

/** All visits written down as one text, and the ways to hand it over. */
export function drawText(page: Page): HTMLElement[] {
  const { data, words, visits } = page;
  const written = writtenOn(page);
  const begun = visits.all().filter((visit) => !visit.written);
  const place = (id: string, says: string): HTMLElement =>
    element('li', {}, element('a', { href: `#v=${id}` }, element('span', {}, says)));
  return [
    element(
      'p',
      { class: 'back' },
      element('a', { href: '#' }, words.say('form.visit.back-farm', { farm: data.farm })),
    ),
    element('h1', { tabindex: '-1' }, words.say('form.file.text')),
    ...(written.length === 0
      ? [paragraphElement(words.say('form.file.none'))]
      : waysOut(page, written.map(({ text }) => text).join('\n'), fileName(page, written))),
    ...(written.length === 0
      ? []
      : [
          element('h2', {}, words.say('form.file.in-it')),
          element(
            'ul',
            { class: 'go small' },
            ...written.map(({ id, slug, day }) =>
              place(
                id,
                words.say('form.file.visit-of', {
                  animal: numberOf(page, slug),
                  day: dayInWords(words, day),
                }),
              ),
            ),
          ),
        ]),
    ...(begun.length === 0
      ? []
      : [
          element('h2', {}, words.say('form.file.not-in-it')),
          element(
            'ul',
            { class: 'go small' },
            ...begun.map(({ id, slug }) => place(id, numberOf(page, slug))),
          ),
        ]),
    keeping(page),
    ...(written.length === 0
      ? []
      : [
          clearing(
            page,
            written.map(({ id }) => id),
          ),
        ]),
  ];
}

function waysOut({ words }: Page, text: string, file: string): HTMLElement[] {
  const area = element('textarea', { id: 'text', readonly: true, rows: '10', spellcheck: 'false' }, text);
  const said = element('p', { class: 'done', role: 'status' });
  const say = (key: string): void => said.replaceChildren(words.say(`form.file.${key}`, { file }));
  return [
    paragraphElement(words.say('form.file.how')),
    element(
      'div',
      { class: 'send' },
      button(
        words.say('form.file.copy'),
        () => void copied(area).then((well) => say(well ? 'copied' : 'not-copied')),
      ),
      button(
        words.say('form.file.download'),
        () => {
          download(text, file);
          say('downloaded');
        },
        true,
      ),
    ),
    said,
    element(
      'div',
      { class: 'field' },
      element('label', { for: 'text' }, words.say('form.file.as-text')),
      area,
    ),
  ];
}

/** Not every browser lets a page opened as a file copy: the older way is tried too, and a refusal is told. */
async function copied(area: HTMLTextAreaElement): Promise<boolean> {
  try {
    await navigator.clipboard.writeText(area.value);
    return true;
  } catch {
    area.focus();
    area.select();
    return document.execCommand('copy');
  }
}

function download(text: string, file: string): void {
  const address = URL.createObjectURL(new Blob([text], { type: 'text/plain;charset=utf-8' }));
  element('a', { href: address, download: file }).click();
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
}

/** Such as: `quernholt-2026-06-16.txt`. */
function fileName({ data }: Page, written: readonly { readonly day: string }[]): string {
  return `${data.slug}-${written.at(-1)?.day ?? data.made}.txt`;
}

function clearing(page: Page, ids: readonly string[]): HTMLElement {
  const { words, visits } = page;
  return element(
    'details',
    {},
    element('summary', {}, words.say('form.file.clear')),
    paragraphElement(words.say('form.file.clear-says')),
    button(
      words.say('form.file.clear-now'),
      () => {
        visits.remove(ids);
        page.goTo('');
      },
      true,
    ),
  );
}
