import { describe, expect, it } from 'vitest';
import { upgradeCases, upgradedText } from '../../src/keep/upgrade-cases.js';
import { animal } from '../../src/record/animal.js';
import { animalText } from '../casefile/generated-cases.js';
import { invented, thirdFormat } from '../casefile/invented-formats.js';
import { keptTexts } from './any-case.js';
import { keepingOf } from './kept-in-memory.js';

const format = { schema: thirdFormat, known: invented };

describe('upgrading a text', () => {
  it('takes the steps of each version on the way and keeps every other byte', () => {
    const text = animalText.replace('visits:', '# how she did\nvisits:');
    expect(upgradedText(text, format)).toEqual({
      outcome: 'upgraded',
      text: text.replace('casefile: 1', 'casefile: 3').replace(/\n---\n$/, '\nbay: back\nlifts: 1\n---\n'),
      from: 1,
      says: invented.map(({ says }) => says),
    });
  });

  it.each(keptTexts.map((text, at) => [at, text] as const))(
    'works in files as people keep them: %i',
    (_, whole) => {
      const text = whole.replace(/^\ufeff/, '');
      const once = upgradedText(text, format);
      if (once.outcome !== 'upgraded') throw new Error(once.outcome);
      expect(once.text.length).toBeGreaterThan(text.length);
      expect(upgradedText(once.text, format)).toEqual({ outcome: 'newest' });
    },
  );

  it('leaves a file of the newest format alone, and refuses one with a mistake', () => {
    expect(upgradedText(animalText, { schema: animal, known: [] })).toEqual({ outcome: 'newest' });
    expect(upgradedText(animalText.replace('gait: 2', 'gate: 2'), format)).toMatchObject({
      outcome: 'refused',
    });
  });
});

describe('upgrading the cases', () => {
  it('changes the older files, keeps their marks, and says what becomes different', () => {
    const keeping = keepingOf({ 'cases/quernholt/0312.md': `\ufeff${animalText.replace('2086', '0312')}` });
    const found = upgradeCases(keeping, undefined, format);
    if (found.outcome !== 'upgrades') throw new Error(JSON.stringify(found));
    expect(found).toMatchObject({ files: 2, farms: ['quernholt'], says: invented.map(({ says }) => says) });
    expect(
      found.changes.map(({ file, after }) => [
        file,
        new TextDecoder('utf-8', { ignoreBOM: true }).decode(after).startsWith('\ufeff---\ncasefile: 3\n'),
      ]),
    ).toEqual([
      ['cases/quernholt/0312.md', true],
      ['cases/quernholt/2086.md', false],
    ]);
    expect(upgradeCases(keeping, 'harrowmere', format)).toMatchObject({ files: 0, changes: [] });
  });

  it('today finds nothing to do, and reports a later format and a mistake together', () => {
    expect(upgradeCases(keepingOf(), undefined)).toMatchObject({
      outcome: 'upgrades',
      files: 1,
      changes: [],
    });
    const wrong = keepingOf({
      'cases/quernholt/1.md': animalText.replace('casefile: 1', 'casefile: 2'),
      'cases/quernholt/2.md': animalText.replace('gait: 2', 'gate: 2'),
    });
    const found = upgradeCases(wrong, undefined);
    expect(found.outcome === 'refused' && found.problems.map(({ id }) => id)).toEqual([
      'value/format-newer',
      'key/unknown',
    ]);
    expect(upgradeCases(wrong, 'nowhere')).toMatchObject({ outcome: 'cannot' });
  });
});
