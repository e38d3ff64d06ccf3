import { test } from 'vitest';
import { readPractice } from '../../src/casefile/read-practice.js';
import { nodeCaseFiles } from '../../src/casefile/node-case-files.js';
import { composeBook } from '../../src/book/compose-book.js';
import { frontMm } from '../../src/book/cow-sheet.js';
import { roomOn } from '../../src/book/fit.js';
test('cal', () => {
  const { practice } = readPractice(nodeCaseFiles, 'cases', { today: '2026-06-16', pictures: 'sized' });
  for (const farm of practice.farms) {
    const book = composeBook(practice, farm, '2026-06-16', {});
    for (const cow of [...book.cows, ...book.closed]) console.log(cow.id, frontMm(cow, roomOn(book.paper)).toFixed(1));
  }
});
