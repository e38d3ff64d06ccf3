import { type Figure, palette } from '../../src/figure/figure.js';
import { overlaps } from '../../src/figure/place-tags.js';
import { all, readSvg, textBoxes, type Element } from './read-svg.js';

/** What is wrong with a figure of whatever kind: form, names, ids, texts cut off or on each other, a ragged table. Sound: none. */
export function complaints(figure: Figure, id: string): string[] {
  const svg = readSvg(figure.svg);
  return [...ofNames(figure, svg, id), ...ofLooks(svg, id), ...ofTexts(svg), ...ofTable(figure)];
}

function named(element: Element | undefined, name: string, id: string, text: string): boolean {
  return (
    element?.name === name && element.attributes.get('id') === id && element.text === text && text !== ''
  );
}

function ofNames({ title, description }: Figure, svg: Element, id: string): string[] {
  const [first, second] = svg.children;
  return [
    svg.attributes.get('role') === 'img' ? '' : 'no role',
    svg.attributes.get('aria-labelledby') === `${id}-t ${id}-d` ? '' : 'not named by title and description',
    named(first, 'title', `${id}-t`, title) ? '' : 'no title',
    named(second, 'desc', `${id}-d`, description) ? '' : 'no description',
  ].filter(Boolean);
}

function ofLooks(svg: Element, id: string): string[] {
  const elements = all(svg);
  const ids = elements.flatMap(({ attributes }) => attributes.get('id') ?? []);
  const known = new Set([...Object.keys(palette().marks), 'fig', 'start', 'end']);
  return [
    ...ids.filter((used) => !used.startsWith(`${id}-`)).map((used) => `id ${used} is not of this drawing`),
    new Set(ids).size === ids.length ? '' : 'an id stands twice',
    ...elements.flatMap(({ name, attributes }) => [
      attributes.has('style') ? `a style on ${name}` : '',
      ...(attributes.get('class')?.split(' ') ?? []).map((of) => (known.has(of) ? '' : `no mark ${of}`)),
      attributes.has('fill') && !ids.some((of) => attributes.get('fill') === `url(#${of})`)
        ? 'a fill of nothing'
        : '',
    ]),
  ].filter(Boolean);
}

function ofTexts(svg: Element): string[] {
  const [width, height] = [Number(svg.attributes.get('width')), Number(svg.attributes.get('height'))];
  const boxes = textBoxes(svg);
  return boxes.flatMap((box, at) => [
    ...(box.x < 0 || box.y < 0 || box.x + box.width > width || box.y + box.height > height
      ? [`"${box.text}" is cut off`]
      : []),
    ...boxes
      .slice(at + 1)
      .flatMap((other) => (overlaps(box, other) ? [`"${box.text}" lies on "${other.text}"`] : [])),
  ]);
}

function ofTable({ table: { columns, rows } }: Figure): string[] {
  return rows.flatMap((row) => [
    ...(row.length === columns.length ? [] : ['a ragged row']),
    ...(row[0] ? [] : ['a row without a name']),
  ]);
}
