export type Attributes = Readonly<Record<string, string | boolean>>;

/**
 * An element of the page, made sign by sign: a text is always a text, never markup. An attribute that is false or an
 * empty class is left out.
 */
export function element<Name extends keyof HTMLElementTagNameMap>(
  name: Name,
  attributes: Attributes = {},
  ...inside: readonly (Node | string)[]
): HTMLElementTagNameMap[Name] {
  const made = document.createElement(name);
  for (const [key, value] of Object.entries(attributes)) {
    if (value === true) made.setAttribute(key, '');
    else if (value !== false) made.setAttribute(key, value);
  }
  made.append(...inside);
  return made;
}

/** A button that does something on this page and sends nothing. */
export function button(label: string, act: () => void, second = false): HTMLButtonElement {
  const made = element('button', { type: 'button', ...(second ? { class: 'second' } : {}) }, label);
  made.addEventListener('click', act);
  return made;
}

export const paragraphElement = (text: string, kind = ''): HTMLParagraphElement =>
  element('p', kind === '' ? {} : { class: kind }, text);

export const lineElements = (texts: readonly string[]): HTMLUListElement =>
  element('ul', {}, ...texts.map((text) => element('li', {}, text)));
