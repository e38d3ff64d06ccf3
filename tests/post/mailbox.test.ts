import { expect, test } from 'vitest';
import { mailboxesOf, mailboxOf, oneLine } from '../../src/post/mailbox.js';

test.each([
  ['nan@quernholt.example', 'nan@quernholt.example'],
  ['nan.thistlewrack+feet@dairy.quernholt.example', 'nan.thistlewrack+feet@dairy.quernholt.example'],
  ["o'nan@quernholt.example", "o'nan@quernholt.example"],
  [' Nan@Quernholt.Example ', 'Nan@quernholt.example'],
  ['nän@größe.example', 'nän@xn--gre-6ka8i.example'],
])('one address: %j', (written, address) => {
  expect(mailboxOf(written)?.address).toBe(address);
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

test('several addresses: each is one and nothing more, none twice, and the name is the first one’s', () => {
  expect(mailboxesOf('nan@quernholt.example, gil@quernholt.example; nan@QUERNHOLT.example', 'Nan')).toEqual([
    { name: 'Nan', address: 'nan@quernholt.example' },
    { address: 'gil@quernholt.example' },
  ]);
  for (const written of ['', 'nan@quernholt.example,', 'nan@quernholt.example, gil'])
    expect(mailboxesOf(written)).toBeUndefined();
});
