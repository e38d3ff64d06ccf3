import { palette, textSize, textWeight } from '../../src/figure/figure.js';
import type { Box } from '../../src/figure/place-tags.js';
import { textWidth } from '../../src/figure/wrap-text.js';

/** An element of a drawing. */
export interface Element {
  readonly name: string;
  readonly attributes: ReadonlyMap<string, string>;
  readonly children: Element[];
  text: string;
}

const token = /<\/([A-Za-z]+)>|<([A-Za-z]+)((?: [a-zA-Z:-]+="[^"<]*")*)(\/?)>|([^<]+)/gy;
const entity = /&(amp|lt|gt|quot);/g;
const plain: Readonly<Record<string, string>> = { amp: '&', lt: '<', gt: '>', quot: '"' };

/** Reads a drawing as strictly as XML asks of what we write: every tag closed, attributes quoted and once, no bare `&`. */
export function readSvg(svg: string): Element {
  const root: Element = { name: '', attributes: new Map(), children: [], text: '' };
  const open = [root];
  token.lastIndex = 0;
  while (token.lastIndex < svg.length) {
    const at = token.lastIndex;
    const found = token.exec(svg);
    if (!found) throw new Error(`not XML at ${at}: ${svg.slice(at, at + 40)}`);
    const [, closing, opening, attributes = '', selfClosing, text] = found;
    const inside = open.at(-1)!;
    if (text !== undefined) inside.text += unescape(text);
    else if (closing !== undefined) {
      if (open.pop()!.name !== closing || open.length === 0) throw new Error(`</${closing}> closes nothing`);
    } else if (opening !== undefined) {
      const element: Element = {
        name: opening,
        attributes: readAttributes(attributes),
        children: [],
        text: '',
      };
      inside.children.push(element);
      if (!selfClosing) open.push(element);
    }
  }
  if (open.length !== 1) throw new Error(`<${open.at(-1)!.name}> is not closed`);
  const [svgElement, ...others] = root.children;
  if (!svgElement || others.length || root.text) throw new Error('one root element is wanted');
  return svgElement;
}

function readAttributes(source: string): Map<string, string> {
  const read = new Map<string, string>();
  for (const [, name, value] of source.matchAll(/ ([a-zA-Z:-]+)="([^"]*)"/g)) {
    if (read.has(name!)) throw new Error(`${name} stands twice`);
    read.set(name!, unescape(value!));
  }
  return read;
}

function unescape(text: string): string {
  if (text.replaceAll(entity, '').includes('&')) throw new Error(`a bare & in ${text}`);
  // oxlint-disable-next-line no-control-regex
  if (/[\u0000-\u001f\ufffe\uffff]/.test(text)) throw new Error('a character XML does not hold');
  return text.replaceAll(entity, (_, name: string) => plain[name]!);
}

/** Every element under one, itself first. */
export function all(element: Element): Element[] {
  return [element, ...element.children.flatMap(all)];
}

export interface TextBox extends Box {
  readonly text: string;
}

/** The room each line of text takes, by the width table and the type sizes of the palette. */
export function textBoxes(svg: Element): TextBox[] {
  return all(svg)
    .filter(({ name }) => name === 'text')
    .map(({ attributes, text }) => {
      const classes = attributes.get('class')!.split(' ');
      const mark = classes.find((name) => name in palette().marks)!;
      const size = textSize(mark);
      const width = textWidth(text, size, textWeight(mark));
      const x = Number(attributes.get('x'));
      const left = classes.includes('start') ? x : classes.includes('end') ? x - width : x - width / 2;
      return { text, x: left, y: Number(attributes.get('y')) - 0.74 * size, width, height: 0.94 * size };
    });
}
