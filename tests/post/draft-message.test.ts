import PostalMime from 'postal-mime';
import { describe, expect, test } from 'vitest';
import { type Attachment, draftMessage, type MailMessage } from '../../src/post/draft-message.js';

const book: Attachment = {
  name: 'quernholt-2026-06-16.html',
  type: 'text/html',
  // Every byte there is, and both kinds of line end: nothing may be changed on the way.
  content: Buffer.concat([
    Buffer.from('<p>Größe\r\nund\nmehr</p>'),
    Buffer.from(Array.from({ length: 256 }, (_, i) => i)),
  ]),
};
const sheets: Attachment = {
  name: 'quernholt-2026-06-16.pdf',
  type: 'application/pdf',
  content: Buffer.from(Array.from({ length: 5000 }, (_, i) => (i * i * 31) % 256)),
};
const calendar: Attachment = {
  name: 'quernholt.ics',
  type: 'text/calendar',
  content: Buffer.from('BEGIN:VCALENDAR\r\nEND:VCALENDAR\r\n'),
};

const message: MailMessage = {
  from: { name: 'Quillfen Foot Trimming', address: 'office@quillfen.example' },
  to: [{ name: 'Nan Thistlewrack', address: 'nan@quernholt.example' }],
  replyTo: { address: 'desk@quillfen.example' },
  subject: 'Quernholt: what to do next, 16 June 2026',
  text: 'Who needs what.\n\n.a line that begins with a dot\nFrom a line that begins so\n2117: block off — Größe × 1½\n',
  html: '<!doctype html><html lang="en"><title>Quernholt</title><p>Who needs what — Größe.</p></html>',
  attachments: [book, sheets, calendar],
  day: '2026-06-16',
};

test('a draft is read by two readers without a defect, and says what was put in', async () => {
  const { bytes, messageId } = await draftMessage(message);
  const read = await PostalMime.parse(bytes);
  expect(read.from).toEqual({ name: 'Quillfen Foot Trimming', address: 'office@quillfen.example' });
  expect(read.to).toEqual([{ name: 'Nan Thistlewrack', address: 'nan@quernholt.example' }]);
  expect(read.replyTo).toEqual([{ name: '', address: 'desk@quillfen.example' }]);
  expect(read.subject).toBe(message.subject);
  expect(read.messageId).toBe(messageId);
  expect(messageId).toMatch(/^<[0-9a-f]{40}@quillfen\.example>$/);
  expect(read.date).toBe('2026-06-16T12:00:00.000Z');
  expect(read.text?.trimEnd()).toBe(message.text.trimEnd());
  expect(read.html?.trimEnd()).toBe(message.html);
  expect(read.headers.find(({ key }) => key === 'x-unsent')?.value).toBe('1');
  expect(read.attachments.map(({ filename, mimeType }) => [filename, mimeType])).toEqual([
    ['quernholt-2026-06-16.html', 'text/html'],
    ['quernholt-2026-06-16.pdf', 'application/pdf'],
    ['quernholt.ics', 'text/calendar'],
  ]);
});

test('lines end as RFC 5322 has them, and none is longer than it allows', async () => {
  const { bytes } = await draftMessage({
    ...message,
    subject: 'Größe '.repeat(300),
    text: 'wide '.repeat(3000),
  });
  const lines = bytes.toString('latin1').split('\r\n');
  expect(lines.filter((line) => /[\r\n]/.test(line))).toEqual([]);
  expect(Math.max(...lines.map((line) => line.length))).toBeLessThanOrEqual(998);
  expect(bytes.toString('latin1')).toMatch(/\r\n$/);
});

test('what is attached comes out byte for byte', async () => {
  const { bytes } = await draftMessage(message);
  const boundary = /boundary="?([^"\r\n;]+)"?/.exec(bytes.toString('latin1'))![1]!;
  const parts = bytes.toString('latin1').split(`--${boundary}`).slice(2, 5);
  const decoded = parts.map((part) => Buffer.from(part.slice(part.indexOf('\r\n\r\n')), 'base64'));
  expect(decoded).toEqual([book, sheets, calendar].map(({ content }) => Buffer.from(content)));
});

test('the same message gives the same bytes; anything else in it, others', async () => {
  const { bytes, messageId } = await draftMessage(message);
  expect((await draftMessage(structuredClone(message))).bytes.equals(bytes)).toBe(true);
  const others: MailMessage[] = [
    { ...message, text: `${message.text} ` },
    { ...message, day: '2026-06-17' },
    { ...message, to: [{ address: 'gil@harrowmere.example' }] },
    { ...message, attachments: [book, calendar] },
    { ...message, attachments: [{ ...book, content: Buffer.from('other') }, sheets, calendar] },
  ];
  for (const other of others) {
    const made = await draftMessage(other);
    expect(made.bytes.equals(bytes)).toBe(false);
    expect(made.messageId).not.toBe(messageId);
  }
});

test('a message that is sent is dated when it goes, is no draft, and sent again has an id of its own', async () => {
  const sentAt = new Date('2026-06-17T06:03:00Z');
  const draft = await draftMessage(message);
  const sent = await draftMessage(message, { sentAt });
  const again = await draftMessage(message, { sentAt, before: 1 });
  const read = await PostalMime.parse(sent.bytes);
  expect(read.date).toBe(sentAt.toISOString());
  expect(read.headers.some(({ key }) => key === 'x-unsent')).toBe(false);
  expect(sent.messageId).toBe(draft.messageId);
  expect(again.messageId).toBe(draft.messageId.replace('@', '.2@'));
});

test('without a sender the mail program fills it in, and the id names a domain nobody can have', async () => {
  const { from: _, ...fromNobody } = message;
  const { bytes, messageId } = await draftMessage(fromNobody);
  expect(bytes.toString('latin1')).not.toMatch(/^From:/m);
  expect(messageId).toMatch(/@growdown\.invalid>$/);
});

describe('no name in a record can add a header, a recipient or a part', () => {
  const hostile = [
    'Quernholt\r\nBcc: spy@elsewhere.example',
    'Quernholt\nBcc: spy@elsewhere.example\n\nbody',
    'Quernholt\u2028Bcc: spy@elsewhere.example',
    'Quernholt", <spy@elsewhere.example>, "',
    'Quernholt <spy@elsewhere.example>',
    'Quernholt, spy@elsewhere.example;',
    '=?utf-8?Q?Quernholt=0D=0ABcc:_spy@elsewhere.example?=',
    'Quernholt\u0000\u0007\u001B[31m',
    'Größe \u{1F404} '.repeat(60),
  ];
  test.each(hostile)('%j', async (name) => {
    const { bytes } = await draftMessage({
      ...message,
      from: { name, address: 'office@quillfen.example' },
      to: [{ name, address: 'nan@quernholt.example' }],
      subject: name,
    });
    const head = bytes.toString('latin1').split('\r\n\r\n')[0]!;
    const names = head
      .split('\r\n')
      .filter((line) => !/^\s/.test(line))
      .map((line) => line.slice(0, line.indexOf(':')));
    expect(names.toSorted()).toEqual(
      [
        'Content-Type',
        'Date',
        'From',
        'MIME-Version',
        'Message-ID',
        'Reply-To',
        'Subject',
        'To',
        'X-Unsent',
      ].toSorted(),
    );
    const read = await PostalMime.parse(bytes);
    expect(read.to?.map((one) => one.address)).toEqual(['nan@quernholt.example']);
    expect(read.from?.address).toBe('office@quillfen.example');
    expect(read.bcc).toBeUndefined();
    expect(read.subject).not.toMatch(/[\r\n]/);
  });
});
