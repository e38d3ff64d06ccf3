import { expect, test } from 'vitest';
import { mailboxOf, oneLine } from '../../src/post/mailbox.js';

test.each([
  'nan@quernholt.example',
  'nan.thistlewrack+feet@dairy.quernholt.example',
  "o'nan@quernholt.example",
  'nän@größe.example',
  ' nan@quernholt.example ',
])('one address: %j', (address) => {
  expect(mailboxOf(address)?.address).toBe(address.trim());
});

test.each([
  '',
  'nan',
  'nan@',
  '@quernholt.example',
  'nan@quernholt',
  'nan@quernholt.example, gil@harrowmere.example',
  'nan@quernholt.example;gil@harrowmere.example',
  'Nan <nan@quernholt.example>',
  'nan@quernholt.example>\r\nBcc: spy@elsewhere.example',
  'nan@quernholt.example\nBcc:spy@elsewhere.example',
  '"nan@x.example"@quernholt.example',
  'nan@spy.example@quernholt.example',
  'nan thistlewrack@quernholt.example',
  'nan@[127.0.0.1]',
  'nan@-quernholt.example',
  'nan\u200B@quernholt.example',
  `${'n'.repeat(65)}@quernholt.example`,
])('not one address: %j', (address) => {
  expect(mailboxOf(address)).toBeUndefined();
});

test('a name that shows nothing is none', () => {
  expect(mailboxOf('nan@quernholt.example', ' \u200B\n')).toEqual({ address: 'nan@quernholt.example' });
  expect(oneLine('a\t b\u202Ec')).toBe('a b c');
});
