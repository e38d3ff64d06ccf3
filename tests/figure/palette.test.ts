import { expect, test } from 'vitest';
import { contrastRatio } from './contrast-ratio.js';
import { figureStyle, palette, schemes } from '../../src/figure/figure.js';

test('contrast by the definition of WCAG', () => {
  expect(contrastRatio('#000000', '#ffffff')).toBeCloseTo(21, 10);
  expect(contrastRatio('#ffffff', '#000000')).toBeCloseTo(21, 10);
  expect(contrastRatio('#abcdef', '#abcdef')).toBe(1);
  // Worked by hand: 0x77 = 119, 119/255 = 0.46667, ((0.46667 + 0.055)/1.055)^2.4 = 0.18447; 1.05/0.23447 = 4.478.
  expect(contrastRatio('#777777', '#ffffff')).toBeCloseTo(4.478, 3);
});

test('every pair in use can be distinguished by day, by night and on paper', () => {
  const { colours, pairs } = palette();
  for (const scheme of schemes)
    for (const { front, back, kind } of pairs) {
      const ratio = contrastRatio(colours[front]![scheme], colours[back]![scheme]);
      expect(ratio, `${front} on ${back}, ${scheme}`).toBeGreaterThanOrEqual(kind === 'text' ? 4.5 : 3);
    }
});

/** Grounds each mark of text is set on; what is drawn over a pattern is ringed with paper. */
const groundsOfText: Readonly<Record<string, readonly string[]>> = {
  n: ['paper', 'horn-pale'], nh: ['horn'], np: ['paper'], e: ['paper', 'horn-pale'], ep: ['paper'], t: ['paper'],
  s: ['paper'], k: ['paper'], w: ['paper'], ni: ['ink', 'muted'],
}; // prettier-ignore

test('the pairs cover every mark: text on its grounds, an outline on its own fill, all from the palette', () => {
  const { colours, marks, pairs } = palette();
  const has = (front: unknown, back: unknown, kind: string) =>
    pairs.some(
      (pair) => pair.front === front && pair.back === back && (pair.kind === kind || pair.kind === 'text'),
    );
  for (const [mark, look] of Object.entries(marks)) {
    for (const part of ['fill', 'stroke'])
      if (look[part] !== undefined && look[part] !== 'none')
        expect(Object.keys(colours), mark).toContain(look[part]);
    if (look['font-size'] !== undefined) {
      expect(Number(look['font-size']), mark).toBeGreaterThanOrEqual(11);
      for (const ground of groundsOfText[mark]!)
        expect(has(look['fill'], ground, 'text'), `${mark} on ${ground}`).toBe(true);
    } else if (look['stroke'] !== undefined && look['stroke'] !== 'rule') {
      const ground = look['fill'] === 'none' ? 'paper' : look['fill'];
      expect(has(look['stroke'], ground, 'graphic'), `${mark}: ${look['stroke']} on ${ground}`).toBe(true);
    } else if (look['fill'] !== 'paper' && look['fill'] !== 'gap' && look['stroke'] !== 'rule')
      expect(has(look['fill'], 'paper', 'graphic'), `${mark}: ${look['fill']} on paper`).toBe(true);
  }
});

test('the style sheet names every colour for three schemes and asks nobody for anything', () => {
  const style = figureStyle();
  for (const role of Object.keys(palette().colours))
    expect(style.split(`--${role}:`).length - 1, role).toBe(3);
  for (const mark of Object.keys(palette().marks)) expect(style).toContain(`.fig .${mark}{`);
  expect(style).not.toMatch(/url\(|@import|https?:|<\//);
});
