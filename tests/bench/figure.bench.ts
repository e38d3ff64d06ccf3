import { bench, describe } from 'vitest';
import { closingOnTime } from '../../src/figure/closing-on-time.js';
import { footMap } from '../../src/figure/foot-map.js';
import { visitTimeline } from '../../src/figure/visit-timeline.js';
import { wallOnTime } from '../../src/figure/wall-on-time.js';
import { wordsOf } from '../../src/reference/words.js';
import { closing, foot, ranUpStrip, timeline } from '../figure/made-up-figures.js';

const words = wordsOf('en-GB');

const wall = { strip: ranUpStrip, today: '2026-06-16', mmPerMonth: 5.5, beneath: timeline };
const paper = { of: 'paper', widthPx: 703, tallestPx: 190 } as const;
const phone = { of: 'phone', widthPx: 328, tallestPx: 160 } as const;

/** As in a run over many farms: the first thousand drawings, while the code is still being compiled, are not counted. */
const steady = { warmupTime: 2000, time: 4000 };

describe('figures', () => {
  bench('a wall of six visits on true time', () => void wallOnTime(wall, words, paper), steady);
  bench(
    'all drawings of an animal: wall twice, time line, foot, ulcer (aim: under 0.4 ms)',
    () => {
      wallOnTime(wall, words, paper);
      wallOnTime(wall, words, phone);
      visitTimeline(timeline, words);
      footMap(foot, words);
      closingOnTime({ strip: closing, today: '2026-06-30' }, words, paper);
    },
    steady,
  );
});
