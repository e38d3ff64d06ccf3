import { expect, test } from 'vitest';
import { wallStrip } from '../../src/figure/wall-strip.js';
import { wordsOf } from '../../src/reference/words.js';
import { complaints } from './complaints.js';
import { ranUpStrip } from './made-up-figures.js';

test('the check of these tests sees what it is for', () => {
  const figure = wallStrip(ranUpStrip, wordsOf('en-GB'));
  const broken = (from: string | RegExp, to: string) =>
    complaints({ ...figure, svg: figure.svg.replace(from, to) }, ranUpStrip.id);
  expect(complaints(figure, ranUpStrip.id)).toEqual([]);
  expect(broken(' role="img"', '')).toEqual(['no role']);
  expect(
    broken(
      '</svg>',
      '<text class="t" x="60" y="40">coronet</text><text class="t" x="61" y="40">out</text></svg>',
    ),
  ).toEqual(['"coronet" lies on "out"']);
  expect(broken('</svg>', '<text class="t" x="5" y="300">coronet</text></svg>')[0]).toBe(
    '"coronet" is cut off',
  );
  expect(broken('class="wall"', 'class="walls"')).toEqual(['no mark walls']);
  expect(broken('<path', '<path style="fill:red"')).toEqual(['a style on path']);
  expect(broken(/fill="url\(#[^"]*"/, 'fill="url(#other)"')).toEqual(['a fill of nothing']);
});
