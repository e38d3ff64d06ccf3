import { describe, expect, test } from 'vitest';
import { goneBefore, timesSent, type PostedLine, postedLine, readPosted } from '../../src/post/posted.js';

const [one, two] = ['a'.repeat(64), 'b'.repeat(64)];
const nan = 'nan@quernholt.example';
const gil = 'gil@quernholt.example';
const shared = (content: string, messageId: string, to: string[]) => ({
  at: '2026-06-16T18:02:00.000Z',
  day: '2026-06-16',
  to,
  messageId,
  content,
});
const begun = (content = one, id = '<1@q.example>', to = [nan]): PostedLine => ({
  what: 'begun',
  ...shared(content, id, to),
  bytes: 5,
  message: two,
  attached: [{ name: 'x.html', sha256: one }],
});
const sent = (content = one, id = '<1@q.example>', to = [nan], refused?: string[]): PostedLine => ({
  what: 'sent',
  ...shared(content, id, to),
  ...(refused ? { refused } : {}),
});
const failed = (content = one, id = '<1@q.example>', to = [nan]): PostedLine => ({
  what: 'failed',
  ...shared(content, id, to),
  why: 'login',
});
const after = (lines: PostedLine[], to = [nan]) => {
  const { sent: had, perhaps } = goneBefore({ lines, unreadable: [] }, one, to);
  return { had: [...had.keys()], perhaps: perhaps?.messageId };
};

test('a line comes back as it was written; nothing else is read as one, and none is lost', () => {
  const lines = [begun(), sent(one, '<1@q.example>', [nan], [gil]), failed()];
  const text = lines.map(postedLine).join('');
  expect(readPosted(text)).toEqual({ lines, unreadable: [] });
  expect(readPosted(`${text}{"what":"sent","at":"20`)).toEqual({ lines, unreadable: [4] });
  expect(readPosted(`x\n${text}{"what":"other"}\n`)).toEqual({ lines, unreadable: [1, 5] });
  expect(readPosted('')).toEqual({ lines: [], unreadable: [] });
});

describe('what is known of the same content', () => {
  test.each<[string, PostedLine[], string[], { had: string[]; perhaps: string | undefined }]>([
    ['nothing', [], [nan], { had: [], perhaps: undefined }],
    ['sent', [begun(), sent()], [nan], { had: [nan], perhaps: undefined }],
    ['failed', [begun(), failed()], [nan], { had: [], perhaps: undefined }],
    ['begun and never ended', [begun()], [nan], { had: [], perhaps: '<1@q.example>' }],
    ['of other content', [begun(two), sent(two)], [nan], { had: [], perhaps: undefined }],
    ['of other content, in doubt', [begun(two)], [nan], { had: [], perhaps: undefined }],
    ['to another address', [begun(one, '<1@q.example>', [gil])], [nan], { had: [], perhaps: undefined }],
    [
      'to one of two',
      [begun(one, '<1@q.example>', [nan, gil]), sent(one, '<1@q.example>', [nan], [gil])],
      [nan, gil],
      { had: [nan], perhaps: undefined },
    ],
    [
      'in doubt, then failed: still in doubt',
      [begun(), begun(), failed()],
      [nan],
      { had: [], perhaps: '<1@q.example>' },
    ],
    [
      'in doubt, then failed under another id',
      [begun(), begun(one, '<2@q.example>'), failed(one, '<2@q.example>')],
      [nan],
      { had: [], perhaps: '<1@q.example>' },
    ],
    [
      'in doubt, then sent under another id',
      [begun(), begun(one, '<2@q.example>'), sent(one, '<2@q.example>')],
      [nan],
      { had: [nan], perhaps: undefined },
    ],
  ])('%s', (_, lines, to, known) => {
    expect(after(lines, to)).toEqual(known);
  });
});

test('how often a message was taken counts its copies, and no other message', () => {
  const lines = [sent(), sent(one, '<1.2@q.example>'), sent(one, '<11@q.example>'), begun(), failed()];
  expect(timesSent({ lines, unreadable: [] }, '<1@q.example>')).toBe(2);
});
