import { bench, describe } from 'vitest';
import { closingStrip } from '../../src/figure/closing-strip.js';
import { footMap } from '../../src/figure/foot-map.js';
import { smallStrip } from '../../src/figure/small-strip.js';
import { visitTimeline } from '../../src/figure/visit-timeline.js';
import { wallStrip } from '../../src/figure/wall-strip.js';
import { wordsOf } from '../../src/reference/words.js';
import { closing, foot, ranUpStrip, timeline } from '../figure/made-up-figures.js';

const words = wordsOf('en-GB');

/** As in a run over many farms: the first thousand drawings, while the code is still being compiled, are not counted. */
const steady = { warmupTime: 2000, time: 4000 };

describe('figures', () => {
  bench('a wall strip of six visits', () => void wallStrip(ranUpStrip, words), steady);
  bench(
    'all drawings of an animal: strip, small strip, time line, foot, ulcer (aim: under 0.4 ms)',
    () => {
      wallStrip(ranUpStrip, words);
      smallStrip(ranUpStrip, words);
      visitTimeline(timeline, words);
      footMap(foot, words);
      closingStrip(closing, words);
    },
    steady,
  );
});
