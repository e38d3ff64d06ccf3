import { expect, test } from 'vitest';
import { unwrapMail } from '../../src/note/mail-lines.js';

test.each([
  ['marks of quoting', '> Quernholt\n>> 2117', 'Quernholt\n2117', []],
  ['headers of a mail', 'From: a@b.example\nDate: Mon\n\nQuernholt', 'Quernholt', [1, 2]],
  ['a day of its own is no header', 'Date: 3 March\nQuernholt', 'Date: 3 March\nQuernholt', []],
  ['a forwarded mail', 'On Monday Orla wrote:\n> Quernholt', 'Quernholt', [1]],
  ['a signature', 'Quernholt\n-- \nOrla Venn', 'Quernholt', [2, 3]],
  ['a line of the phone', 'Quernholt\n\nSent from my phone\n', 'Quernholt', [3]],
  [
    'that line inside the note stays',
    'Quernholt\nSent from my phone\n2117',
    'Quernholt\nSent from my phone\n2117',
    [],
  ],
  ['Windows line ends', 'Quernholt\r\n2117\r\n', 'Quernholt\n2117', []],
] as const)('%s', (_, given, kept, passedOver) => {
  const { text, passedOver: passed } = unwrapMail(given);
  expect(text.replaceAll(/ *\n+ */g, '\n').trim()).toBe(kept);
  expect(passed).toEqual(passedOver);
});

test('every place still holds: the text is as long as it was', () => {
  const given = 'From: a\r\n> > 2117 a: top 21\r\n-- \r\nOrla';
  expect(unwrapMail(given).text).toHaveLength(given.length);
});
