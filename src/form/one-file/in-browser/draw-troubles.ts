import { labelOf } from '../../field.js';
import { element } from './element.js';
import type { Page } from './page.js';

/** What is wrong with what was filled in, each leading to its field; nothing where nothing is. */
export function drawTroubles({ words }: Page, troubles: ReadonlyMap<string, string>): HTMLElement[] {
  if (troubles.size === 0) return [];
  const items = [...troubles].map(([field, message]) => {
    const text = words.say('form.trouble.is', { label: labelOf(words, field), message });
    const jump = element('a', { href: `#f-${field}` }, text);
    // The address tells which view is shown: it is not for jumping here.
    jump.addEventListener('click', (event) => {
      event.preventDefault();
      const at = document.getElementById(`f-${field}`);
      for (let fold = at?.closest('details'); fold; fold = fold.parentElement?.closest('details'))
        fold.open = true;
      at?.scrollIntoView();
      (at?.matches('input, select, textarea')
        ? at
        : at?.querySelector<HTMLElement>('input, select')
      )?.focus();
    });
    return element('li', {}, jump);
  });
  return [
    element(
      'section',
      { class: 'wrong', tabindex: '-1' },
      element('p', {}, element('strong', {}, words.say('form.file.mend'))),
      element('ul', {}, ...items),
    ),
  ];
}
