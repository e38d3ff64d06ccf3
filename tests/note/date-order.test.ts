import { describe, expect, test } from 'vitest';
import type { Business } from '../../src/record/business.js';
import { readNote } from '../../src/note/read-note.js';
import { noteContext } from './two-farms.js';

const context = noteContext('2026-06-16');
const read = (text: string, dates?: Business['dates']) => {
  const business = dates === undefined ? context.business : { ...context.business, dates };
  const [animal] = readNote(text, { ...context, business }).animals;
  return { asked: animal!.questions.map(({ id }) => id), ...animal!.draft };
};

describe('3/4/2026', () => {
  const note = 'Quernholt 3/4/2026\n2086 mobility 2';

  test('is asked about where nothing settles it', () => {
    expect(read(note).asked).toEqual(['day-either']);
  });

  test.each([
    ['day-first', '2026-04-03'],
    ['month-first', '2026-03-04'],
  ] as const)('is read as business.md says: %s', (dates, date) => {
    expect(read(note, dates)).toMatchObject({ asked: [], date });
  });

  test('is not turned round to be no day to come', () => {
    expect(read('Quernholt 3/12/2026\n2086 mobility 2', 'day-first').asked).toEqual(['no-day']);
  });
});

describe('the day of the next visit', () => {
  test('is asked about where both days are near, and read as another date of the note can only be read', () => {
    expect(read('Quernholt 4 June 2026\n2086 mobility 2, see again 7/8').asked).toEqual(['day-either']);
    expect(read('Quernholt 15/6/2026\n2086 mobility 2, see again 7/8')).toMatchObject({ asked: [], recheck: '2026-08-07' }); // prettier-ignore
    expect(read('Quernholt 4 June 2026\n2086 mobility 2, see again 7/8', 'month-first')).toMatchObject({ asked: [], recheck: '2026-07-08' }); // prettier-ignore
  });

  test('is the nearer one where the other is half a year away', () => {
    expect(read('Quernholt 4 June 2026\n2086 mobility 2, see again 3/7')).toMatchObject({ asked: [], recheck: '2026-07-03' }); // prettier-ignore
  });
});
