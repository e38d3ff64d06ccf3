import type { LesionGrowth } from '../../src/growth/animal-growth.js';
import type { ReadingWorthTaking } from '../../src/growth/worth-measuring/worth-measuring.js';
import type { BlockQuestion } from '../../src/healing/block-timeline.js';
import type { UlcerClosing } from '../../src/healing/closing/ulcer-closing.js';
import type { CaseStanding, GaitStanding, LesionStanding } from '../../src/healing/standing.js';
import type { Animal } from '../../src/record/animal.js';
import type { DueItem } from '../../src/schedule/due/due-item.js';
import type { MissingEntry } from '../../src/schedule/missing-on-farm.js';
import type { Notice } from '../../src/schedule/notices/notice-rule.js';
import { animalSentence } from '../../src/words/compose-animal.js';
import { blockQuestionInWords, missingInWords } from '../../src/words/compose-withheld.js';
import { closingSentence, gaitInShort } from '../../src/words/compose-closing.js';
import { worthSentence, outSentence } from '../../src/words/compose-regrowth.js';
import { dueInWords, noticeInWords } from '../../src/words/compose-due.js';
import { lesionSentence } from '../../src/words/compose-standing.js';
import type { Words } from '../../src/reference/words.js';
import { plain } from './plain.js';

/** A situation as worked out, without words. */
export type Situation =
  | {
      of: 'lesion';
      code: LesionStanding['code'];
      standing: LesionStanding['standing'];
      evidence: LesionStanding['evidence'];
    }
  | { of: 'gait'; gait: GaitStanding }
  | { of: 'animal'; standing: Omit<CaseStanding, 'episode'> }
  | { of: 'date'; forecast: LesionGrowth['forecast'] }
  | { of: 'closing'; forecast: UlcerClosing['forecast']; widths: number; rough: boolean }
  | { of: 'block'; question: BlockQuestion }
  | { of: 'worth'; reading: ReadingWorthTaking }
  | { of: 'due'; item: DueItem }
  | { of: 'notice'; notice: Notice }
  | { of: 'gap'; gap: MissingEntry };

export interface Row {
  readonly situation: string;
  readonly says: string;
}

export const today = '2026-06-10';

/** A cow invented for the table. */
export const cow: Animal = {
  casefile: 1,
  animal: '2041',
  lesions: {
    a: { code: 'WL', foot: 'LH', claw: 'outer', line: 'heel' },
    b: { code: 'HFH', foot: 'LH', claw: 'outer', line: 'dorsal' },
    c: { code: 'DD', foot: 'RH' },
    d: { code: 'SU', foot: 'RH', claw: 'outer' },
  },
  visits: [],
};

/** What the book says of a situation. */
export function saySituation(words: Words, situation: Situation): string {
  switch (situation.of) {
    case 'lesion':
      return lesionSentence(words, cow, { lesion: 'a', ...situation });
    case 'gait':
      return gaitInShort(words, situation.gait);
    case 'animal':
      return animalSentence(words, cow, { ...situation.standing, episode: { visits: [] } });
    case 'date':
      return outSentence(words, lineWith(situation.forecast), today);
    case 'closing':
      return closingSentence(words, ulcerWith(situation), today);
    case 'block':
      return blockQuestionInWords(words, situation.question);
    case 'worth':
      return worthSentence(words, cow, { lesions: [lineWith(dated)] }, situation.reading);
    case 'due': {
      const { what, why } = plain(dueInWords(words, cow, situation.item));
      return `${what} | ${why}`;
    }
    case 'notice':
      return plain(noticeInWords(words, cow, situation.notice));
    case 'gap': {
      const { message, close } = missingInWords(words, cow, situation.gap);
      return `${message} | ${close}`;
    }
  }
}

const dated: LesionGrowth['forecast'] = {
  outcome: 'range',
  from: '2026-06-02',
  days: { early: 30, best: 60, late: 90 },
  out: { early: '2026-07-02', best: '2026-08-01', late: '2026-08-31' },
  ifSoundHornFollows: false,
};

function ulcerWith({ forecast, widths, rough }: Extract<Situation, { of: 'closing' }>): UlcerClosing {
  const width = { date: '2026-06-02', visit: 0, by: 'Orla Venn', widthMm: 9, sigmaMm: 1, unused: false };
  return {
    lesion: 'd',
    code: 'SU',
    foot: 'RH',
    readings: Array.from({ length: widths }, () => ({ ...width, kind: 'as-expected' as const })),
    factor: { mean: 1, variance: 0.1 },
    forecast,
    rough,
    closed: [],
    cameBack: [],
    nextReading: () => undefined,
  };
}

function lineWith(forecast: LesionGrowth['forecast']): LesionGrowth {
  return {
    lesion: 'a',
    code: 'WL',
    foot: 'LH',
    claw: 'outer',
    line: 'heel',
    referenceMmPerMonth: 6,
    readings: [],
    wall: { mm: 42, sdMm: 7, source: 'reference', likelyTooLong: false },
    forecast,
    stillAtCoronet: false,
    expectedOn: () => undefined,
    nextReading: () => undefined,
  };
}
