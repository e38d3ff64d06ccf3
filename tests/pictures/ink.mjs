/** Colours of the drawings: ink on paper, horn amber, dark red only for what is open. All differ in grey as well. */
export const ink = {
  paper: '#fbf8f1',
  line: '#22252b',
  horn: '#dcbc80',
  hornDeep: '#c29a58',
  hornPale: '#efdfb8',
  bare: '#f7ecd8',
  open: '#7d1f1a',
  raw: '#b9574a',
  skin: '#b9a494',
  skinDeep: '#9c8576',
  soft: '#d8c3b2',
  steel: '#eceff0',
  quiet: '#5b5f66',
};

/** A number with at most two decimals, so that the same drawing is the same bytes. */
export const n = (value) => String(Math.round(value * 100) / 100);

/** `M x y L x y …` through points. */
export const through = (points) => points.map(([x, y], i) => `${i ? 'L' : 'M'}${n(x)} ${n(y)}`).join(' ');

/** A smooth line through points: cubic pieces with tangents from the neighbours. */
export function smooth(points, closed = false) {
  const at = (i) =>
    closed ? points.at(i % points.length) : points[Math.min(Math.max(i, 0), points.length - 1)];
  const pieces = closed ? points.length : points.length - 1;
  let d = `M${n(points[0][0])} ${n(points[0][1])}`;
  for (let i = 0; i < pieces; i += 1) {
    const [before, from, to, after] = [at(i - 1), at(i), at(i + 1), at(i + 2)];
    const one = [from[0] + (to[0] - before[0]) / 6, from[1] + (to[1] - before[1]) / 6];
    const two = [to[0] - (after[0] - from[0]) / 6, to[1] - (after[1] - from[1]) / 6];
    d += ` C${[...one, ...two, ...to].map(n).join(' ')}`;
  }
  return closed ? `${d} Z` : d;
}

/** An element with attributes; `false` and `undefined` are left out. */
export function element(name, attributes, inside) {
  const written = Object.entries(attributes)
    .filter(([, value]) => value !== undefined && value !== false)
    .map(([key, value]) => ` ${key}="${typeof value === 'number' ? n(value) : value}"`)
    .join('');
  return inside === undefined ? `<${name}${written}/>` : `<${name}${written}>${inside}</${name}>`;
}

export const path = (d, attributes = {}) =>
  element('path', { d, fill: 'none', stroke: ink.line, 'stroke-width': 2, 'stroke-linejoin': 'round', 'stroke-linecap': 'round', ...attributes }); // prettier-ignore

/** Text in the reader's own sans face; `halo` lays paper behind the letters. */
export const label = (x, y, words, { size = 20, anchor = 'start', weight = 400, fill = ink.line, halo = false } = {}) =>
  element('text', { x, y, 'font-size': size, 'text-anchor': anchor, 'font-weight': weight, fill, ...(halo ? { stroke: ink.paper, 'stroke-width': 5, 'paint-order': 'stroke', 'stroke-linejoin': 'round' } : {}) }, words.replaceAll('&', '&amp;').replaceAll('<', '&lt;')); // prettier-ignore

/** A pattern of parallel strokes. */
const hatch = (id, colour, gap, turn) =>
  `<pattern id="${id}" width="${gap}" height="${gap}" patternUnits="userSpaceOnUse" patternTransform="rotate(${turn})"><line x1="0" y1="0" x2="0" y2="${gap}" stroke="${colour}" stroke-width="2.2"/></pattern>`;

/** A whole picture with the hatching the drawings share. */
export function sheet(width, height, title, inside) {
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${width} ${height}" width="${width}" height="${height}" role="img" aria-label="${title}" font-family="system-ui, 'Segoe UI', 'Helvetica Neue', Arial, 'Liberation Sans', sans-serif">`,
    `<title>${title}</title>`,
    `<defs>${hatch('gap', ink.open, 9, 45)}${hatch('loose', ink.quiet, 6, -45)}</defs>`,
    element('rect', { width, height, fill: ink.paper }),
    inside,
    '</svg>',
    '',
  ].join('\n');
}
