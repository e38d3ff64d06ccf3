import { expect, test } from 'vitest';
import { readCaseFile } from '../../src/casefile/read-case-file.js';
import { sourceText } from '../../src/casefile/source-text.js';
import { splitFrontMatter } from '../../src/casefile/split-front-matter.js';
import { animal } from '../../src/record/animal.js';
import { animalText } from './generated-cases.js';

test('a blank stretch of a thousand characters is read, one more is not', () => {
  const blank = (lines: number) =>
    splitFrontMatter(
      sourceText(`---\n${'# twelve long\n'.repeat(1000)}${'\n'.repeat(lines)}casefile: 1\n---\n`),
    );
  expect(blank(999).outcome).toBe('split');
  expect(blank(1000)).toMatchObject({ outcome: 'trouble', trouble: { id: 'file/long-stretch' } });
});

test('words behind a # are missed too where a text runs over several lines', () => {
  const text = animalText.replace('"First lifted today."', 'First lifted\n      today # and trimmed');
  expect(readCaseFile(sourceText(text), animal, 'animal')).toMatchObject({
    outcome: 'troubles',
    troubles: [{ id: 'yaml/comment-in-text' }],
  });
});
