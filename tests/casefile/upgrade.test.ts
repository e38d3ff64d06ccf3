import { describe, expect, it } from 'vitest';
import { readCaseFile } from '../../src/casefile/read-case-file.js';
import { sourceText } from '../../src/casefile/source-text.js';
import { toNewest, upgradeSteps } from '../../src/casefile/upgrade/to-newest.js';
import { wantedBy } from '../../src/casefile/wanted.js';
import { animal, caseFormat } from '../../src/record/animal.js';
import { animalText } from './generated-cases.js';
import { invented, thirdFormat } from './invented-formats.js';

describe('an older file', () => {
  it('is read as of the newest format, step by step, with its places as they are', () => {
    const read = readCaseFile(sourceText(animalText), thirdFormat, 'animal', invented);
    if (read.outcome !== 'record') throw new Error(JSON.stringify(read));
    expect(read.record).toMatchObject({ casefile: 3, bay: 'back', lifts: 1, animal: '2086' });
    expect(read.placeOf(['visits', 0, 'gait'])).toMatchObject({ line: 10 });
    const second = readCaseFile(
      sourceText(animalText.replace('casefile: 1', 'casefile: 2\nbay: back')),
      thirdFormat,
      'animal',
      invented,
    );
    expect(second).toMatchObject({ outcome: 'record', record: { casefile: 3, bay: 'back', lifts: 1 } });
  });

  it('with a mistake is told of it as any other', () => {
    const read = readCaseFile(
      sourceText(animalText.replace('gait: 2', 'gate: 2')),
      thirdFormat,
      'animal',
      invented,
    );
    expect(read).toMatchObject({
      outcome: 'troubles',
      troubles: [{ id: 'key/unknown', place: { line: 10 } }],
    });
  });

  it('a format without a way to it is a slip of ours', () => {
    expect(() => toNewest(wantedBy(thirdFormat), { casefile: 1 }, invented.slice(1))).toThrow(RangeError);
  });
});

describe('the formats of today', () => {
  it('each older one has its step to the next, and there is none too many', () => {
    expect(upgradeSteps.map(({ from }) => from)).toEqual(
      Array.from({ length: caseFormat - 1 }, (_, at) => at + 1),
    );
  });

  it('a file of the newest is left as it is; a later one is reported for what it is and nothing else is said of it', () => {
    expect(toNewest(wantedBy(animal), { casefile: caseFormat }, upgradeSteps)).toEqual({ outcome: 'newest' });
    const later = animalText
      .replace('casefile: 1', `casefile: ${caseFormat + 1}`)
      .replace('gait: 2', 'gate: 2');
    expect(readCaseFile(sourceText(later), animal, 'animal')).toMatchObject({
      outcome: 'troubles',
      troubles: [{ id: 'value/format-newer' }],
    });
  });

  it.each(['0', '-1', '1.5', '"1"', 'one', '', '[1]'])(
    'casefile: %s is a mistake of another kind',
    (version) => {
      const read = readCaseFile(
        sourceText(animalText.replace('casefile: 1', `casefile: ${version}`)),
        animal,
        'animal',
      );
      if (read.outcome !== 'troubles') throw new Error('taken');
      expect(read.troubles.map(({ id }) => id)).not.toContain('value/format-newer');
    },
  );
});
