import { expect, test } from 'vitest';
import { wallOnTime } from '../../src/figure/wall-on-time.js';
import { wordsOf } from '../../src/reference/words.js';
import { complaints } from './complaints.js';
import { ranUpStrip } from './made-up-figures.js';

test('the check of these tests sees what it is for', () => {
  const figure = wallOnTime({ strip: ranUpStrip, today: '2026-06-16', mmPerMonth: 5.5 }, wordsOf('en-GB'), {
    of: 'paper',
    widthPx: 703,
    tallestPx: 190,
  });
  const id = `${ranUpStrip.id}-paper`;
  const broken = (from: string | RegExp, to: string) =>
    complaints({ ...figure, svg: figure.svg.replace(from, to) }, id);
  expect(complaints(figure, id)).toEqual([]);
  expect(broken(' role="img"', '')).toEqual(['no role']);
  expect(
    broken(
      '</svg>',
      '<text class="t" x="600" y="60">coronet</text><text class="t" x="601" y="60">out</text></svg>',
    ),
  ).toEqual(['"coronet" lies on "out"']);
  expect(broken('</svg>', '<text class="t" x="5" y="300">coronet</text></svg>')[0]).toBe(
    '"coronet" is cut off',
  );
  expect(broken('class="wall"', 'class="walls"')).toEqual(['no mark walls']);
  expect(broken('<path', '<path style="fill:red"')).toEqual(['a style on path']);
  expect(broken(/fill="url\(#[^"]*"/, 'fill="url(#other)"')).toEqual(['a fill of nothing']);
});
