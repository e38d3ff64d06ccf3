import { expect, test } from 'vitest';
import { tooLarge } from '../../../src/post/sending/prepare-letter.js';

const farm = { slug: 'quernholt', farm: { farm: 'Quernholt', send: 'both' as const } };
const file = { name: 'quernholt-2026-06-16.html', type: 'text/html' as const, content: new Uint8Array(8e6) };

test('above what any mail box should be asked to take, no larger message is offered', () => {
  const most = tooLarge({}, farm, [file], { bytes: 22_000_001, maxMb: 20 });
  expect(most).toMatch(/^the message is 22\.0 MB, more than 20 MB: quernholt-2026-06-16\.html 8\.0 MB/);
  expect(most).not.toContain('--max-mb');
  expect(most).toMatch(/--attach html[^]*--open-only[^]*growdown books --farm quernholt/);
});

test('only ways that are open are offered', () => {
  const said = tooLarge({ attach: 'html', openOnly: true }, farm, [file], { bytes: 11_200_000, maxMb: 10 });
  expect(said).not.toMatch(/--attach|--open-only/);
  expect(said).toContain('--max-mb 12');
});
