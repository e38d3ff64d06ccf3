import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import PostalMime from 'postal-mime';
import { describe, expect, test } from 'vitest';
import type { Mailer } from '../../../src/run/effects.js';
import { nodeMailer } from '../../../src/post/sending/node-mailer.js';
import { nodeDisk } from '../../../src/cli/node-disk.js';
import { nodeCaseFiles } from '../../../src/casefile/node-case-files.js';
import { readPosted, mailedHeads } from '../../../src/post/posted.js';
import { animalFile, filesFrom, type Run } from '../../cli/run-in-folder.js';
import { farmFileOf, mailFolder, privateFile, quernholt } from './mail-folder.js';
import { login, mailSink } from './mail-sink.js';

const memoryOf = (folder: string, slug = 'quernholt') => join(folder, `cases/${slug}/.growdown/posted.jsonl`);
const linesOf = (folder: string, slug?: string) => {
  const path = memoryOf(folder, slug);
  return existsSync(path) ? readPosted(readFileSync(path, 'utf8')).lines : [];
};
const whatOf = (folder: string, slug?: string) => linesOf(folder, slug).map(({ what }) => what);

test('a letter goes over TLS after a login; what went, when and with which hash is noted', async () => {
  const { setting, taken, attempts } = await mailSink();
  const { folder, growdown } = mailFolder(quernholt, setting);
  const run = await growdown('post', 'quernholt', '--send');
  expect(run).toEqual({
    code: 0,
    out: expect.stringMatching(
      /^quernholt {2}sent to nan@quernholt\.example; \d+(?:\.\d)? [kM]B\n$/,
    ) as string,
    err: '',
  });
  expect(attempts).toEqual(['login under TLS']);
  const [one] = taken;
  expect(taken).toHaveLength(1);
  expect(one).toMatchObject({ from: 'office@quillfen.example', to: ['nan@quernholt.example'], secure: true });
  const read = await PostalMime.parse(one!.bytes);
  expect(read.headers.some(({ key }) => key === 'x-unsent')).toBe(false);
  await growdown('books');
  expect(
    Buffer.from(read.attachments[0]!.content as ArrayBuffer).equals(
      readFileSync(join(folder, 'books/quernholt.html')),
    ),
  ).toBe(true);
  const [begun, sent] = linesOf(folder);
  expect(whatOf(folder)).toEqual(['begun', 'sent']);
  expect(sent).toMatchObject({ to: ['nan@quernholt.example'], messageId: read.messageId, day: '2026-06-16' });
  expect(begun!.content).toBe(sent!.content);
  // No draft is left behind that could be sent a second time.
  expect(existsSync(join(folder, 'books/quernholt.eml'))).toBe(false);
});

test('what is sent is sealed first, and the mail bears the head of the ledger', async () => {
  const { setting, taken } = await mailSink();
  const { folder, growdown } = mailFolder(quernholt, setting);
  await growdown('post', 'quernholt', '--send', '--dry-run');
  expect(existsSync(join(folder, 'cases/quernholt/.growdown'))).toBe(false);
  await growdown('post', 'quernholt', '--send');
  const { text = '', html = '' } = await PostalMime.parse(taken[0]!.bytes);
  const said = /, ending ((?:[0-9a-f]{4} ){3}[0-9a-f]{4})\. Keep this email/.exec(text)![1]!;
  expect(html).toContain(said);
  const sealing = JSON.parse((await growdown('seal', '--json')).out) as {
    farms: { sealed: unknown[]; head: { hash: string } }[];
  };
  expect(sealing.farms[0]!.sealed).toEqual([]);
  const { hash } = sealing.farms[0]!.head;
  expect(hash.startsWith(said.replaceAll(' ', ''))).toBe(true);
  expect(mailedHeads({ lines: linesOf(folder), unreadable: [] })).toEqual([
    { day: '2026-06-16', to: ['nan@quernholt.example'], head: hash },
  ]);
});

test('a sealed record changed in silence is not sent to anybody', async () => {
  const { setting, taken } = await mailSink();
  const { growdown, put } = mailFolder(quernholt, setting);
  await growdown('seal');
  put('cases/quernholt/2086.md', animalFile('2086', 'top: 20, top-found: seen, wall: 43, tool: tape'));
  const run = await growdown('post', 'quernholt', '--send');
  expect([run.code, taken.length]).toEqual([1, 0]);
  expect(run.err).toContain('quernholt: no mail, because of the errors above');
});

test('the same is not sent again unasked; sent again it has an id of its own', async () => {
  const { setting, taken } = await mailSink();
  const { folder, growdown } = mailFolder(quernholt, setting);
  await growdown('post', 'quernholt', '--send');
  const second = await growdown('post', 'quernholt', '--send');
  expect([second.code, second.out]).toEqual([2, '']);
  expect(second.err).toMatch(
    /what it says went to nan@quernholt\.example on \d{4}-[^]*`--again` sends it again/,
  );
  expect(taken).toHaveLength(1);
  // Another day with nothing new is the same letter.
  expect((await growdown('post', 'quernholt', '--send', '--today', '2026-06-17')).code).toBe(2);
  expect((await growdown('post', 'quernholt', '--send', '--again')).code).toBe(0);
  const ids = await Promise.all(taken.map(async ({ bytes }) => (await PostalMime.parse(bytes)).messageId));
  expect(ids[1]).toBe(ids[0]!.replace('@', '.2@'));
  expect(whatOf(folder)).toEqual(['begun', 'sent', 'begun', 'sent']);
});

describe('each way it can fail has its own words, marks nothing as sent, and does not stand in the way of the next try', () => {
  const refuse = (responseCode: number, said = 'not so') => Object.assign(new Error(said), { responseCode });
  test.each([
    ['no TLS', { hideSTARTTLS: true, disabledCommands: ['STARTTLS'] }, /does not begin TLS/],
    ['too large', { size: 1000 }, /takes no message as large as this[^]*--max-mb/],
    [
      'refused address',
      { onRcptTo: (_: unknown, __: unknown, end: (error: Error) => void) => end(refuse(550)) },
      /refuses the farm's address \(it says: 550 not so\)/,
    ],
  ] as const)('%s', async (_, changed, said) => {
    const { setting, taken } = await mailSink(changed as object);
    const { folder, growdown } = mailFolder(quernholt, setting);
    const run = await growdown('post', 'quernholt', '--send');
    expect([run.code, run.out]).toEqual([2, '']);
    expect(run.err).toMatch(said);
    expect(run.err).toContain('Nothing is marked as sent');
    expect(taken).toEqual([]);
    expect(whatOf(folder)).toEqual(['begun', 'failed']);
    const good = await mailSink();
    writeFileSync(join(folder, 'mine/mail.txt'), privateFile(good.setting, 'mine/trust.pem'));
    expect((await growdown('post', 'quernholt', '--send')).err).toBe('');
    expect(good.taken).toHaveLength(1);
  });

  test('no server', async () => {
    const { setting, server } = await mailSink();
    await new Promise<void>((resolve) => server.close(() => resolve()));
    const { folder, growdown } = mailFolder(quernholt, setting);
    const run = await growdown('post', 'quernholt', '--send');
    expect(run.err).toMatch(/no mail server takes calls at localhost:\d+[^]*Nothing is marked as sent/);
    expect(whatOf(folder)).toEqual(['begun', 'failed']);
  });

  test('wrong password, which is nowhere to be read', async () => {
    const { setting } = await mailSink();
    const password = 'hoof-and-horn-417';
    const { folder, growdown } = mailFolder(quernholt, { ...setting, login: { ...login, password } });
    const run = await growdown('post', 'quernholt', '--send', '--json');
    expect(run.err).toMatch(/refuses the user name or the password[^]*Nothing is marked as sent/);
    expect(`${run.out}${run.err}${readFileSync(memoryOf(folder), 'utf8')}`).not.toContain(password);
    expect(whatOf(folder)).toEqual(['begun', 'failed']);
  });

  test('a certificate that is not trusted', async () => {
    const { setting } = await mailSink();
    const { folder, growdown, put } = mailFolder(quernholt, setting);
    put('mine/mail.txt', privateFile(setting, 'mine/trust.pem').replace(/^trust.*$/m, ''));
    const run = await growdown('post', 'quernholt', '--send');
    expect(run.err).toMatch(
      /the certificate of localhost:\d+ is not trusted[^]*`trust`[^]*Nothing is marked as sent/,
    );
    expect(whatOf(folder)).toEqual(['begun', 'failed']);
  });
});

test('of two addresses one is refused: the other has it, and only the refused one is sent it next time', async () => {
  let refusing = true;
  const { setting, taken } = await mailSink({
    onRcptTo: ({ address }, _, end) =>
      end(
        refusing && address.startsWith('gil')
          ? Object.assign(new Error('gone'), { responseCode: 550 })
          : null,
      ),
  });
  const { folder, growdown } = mailFolder(
    {
      ...quernholt,
      'cases/quernholt/farm.md': farmFileOf('Quernholt', 'nan@Quernholt.Example, gil@quernholt.example'),
    },
    setting,
  );
  const run = await growdown('post', 'quernholt', '--send');
  expect([run.code, run.out]).toEqual([2, expect.stringContaining('sent to nan@quernholt.example;')]);
  expect(run.err).toMatch(
    /gil@quernholt\.example was refused \(the server says: 550 gone\), and is not marked as sent/,
  );
  expect(linesOf(folder).at(-1)).toMatchObject({
    to: ['nan@quernholt.example'],
    refused: ['gil@quernholt.example'],
  });
  refusing = false;
  expect((await growdown('post', 'quernholt', '--send')).code).toBe(0);
  expect(taken.map(({ to }) => to)).toEqual([['nan@quernholt.example'], ['gil@quernholt.example']]);
});

describe('when the program ends between the 250 and its note', () => {
  const inDoubt = async () => {
    const sink = await mailSink();
    // The last note is lost, as by a power cut.
    const made = mailFolder(quernholt, sink.setting);
    await made.growdown('post', 'quernholt', '--send');
    const [begun] = readFileSync(memoryOf(made.folder), 'utf8').split('\n');
    writeFileSync(memoryOf(made.folder), `${begun}\n{"what":"sent","at":"2026-06-16T1`);
    return { ...sink, ...made };
  };

  test('the next run says that it may have gone, and sends nothing', async () => {
    const { growdown, taken } = await inDoubt();
    for (const words of [['quernholt'], ['--all-due']]) {
      const run = await growdown('post', ...words, '--send');
      expect(run.code).toBe(2);
      expect(run.err).toMatch(/ended before it heard whether the server took it[^]*`--came`[^]*`--again`/);
    }
    expect(taken).toHaveLength(1);
  });

  test('what came is noted, and then it is the same again', async () => {
    const { folder, growdown, taken } = await inDoubt();
    expect((await growdown('post', 'quernholt', '--came')).out).toMatch(
      /^quernholt {2}noted: sent to nan@quernholt/,
    );
    expect(whatOf(folder)).toEqual(['begun', 'sent']);
    expect((await growdown('post', 'quernholt', '--send')).err).toContain('what it says went to');
    expect((await growdown('post', 'quernholt', '--came')).err).toContain('there is nothing to note');
    expect(taken).toHaveLength(1);
  });

  test('sent again it has the same id, so that a box which has it shows it once', async () => {
    const { growdown, taken } = await inDoubt();
    expect((await growdown('post', 'quernholt', '--send', '--again')).code).toBe(0);
    const ids = await Promise.all(taken.map(async ({ bytes }) => (await PostalMime.parse(bytes)).messageId));
    expect(ids[1]).toBe(ids[0]);
    expect((await growdown('post', 'quernholt', '--send')).err).toContain('what it says went to');
  });
});

describe('a disk that takes no note', () => {
  const whereNoteFails = async (at: number) => {
    const sink = await mailSink();
    const made = mailFolder(quernholt, sink.setting);
    const disk = nodeDisk(made.folder, nodeCaseFiles);
    const { append } = disk;
    let notes = 0;
    const files = filesFrom(made.folder);
    made.given.disk = {
      ...disk,
      files,
      append: (path, lines) => {
        notes += 1;
        if (notes === at) throw Object.assign(new Error('full'), { code: 'ENOSPC' });
        append(path, lines);
      },
    };
    const run = await made.growdown('post', 'quernholt', '--send');
    delete made.given.disk;
    return { ...sink, ...made, run };
  };

  test('before the server is spoken to: nothing is sent', async () => {
    const { run, taken } = await whereNoteFails(1);
    expect([run.code, run.err]).toEqual([
      2,
      expect.stringMatching(/cannot be written \(ENOSPC\), so nothing was sent/),
    ]);
    expect(taken).toEqual([]);
  });

  test('after its 250: it is said that it has gone, and the next run knows that it may have', async () => {
    const { run, taken, growdown } = await whereNoteFails(2);
    expect(run.err).toMatch(
      /has gone to nan@quernholt\.example, but [^]*is not noted[^]*Do not send it again/,
    );
    expect(taken).toHaveLength(1);
    expect((await growdown('post', 'quernholt', '--send')).err).toContain('ended before it heard');
  });
});

test('--all-due sends to the farms with news, reports those it cannot write to, and goes on', async () => {
  const { setting, taken } = await mailSink();
  const { folder, growdown, put } = mailFolder(
    {
      ...quernholt,
      'cases/brackmere/farm.md': farmFileOf('Brackmere'),
      'cases/brackmere/9.md': animalFile('9'),
      'cases/oddmere/farm.md': farmFileOf('Oddmere', 'odd@oddmere.example'),
      'cases/oddmere/7.md': animalFile('7').replace('state: open', 'state: opne'),
      'cases/stillmere/farm.md': farmFileOf('Stillmere', 'still@stillmere.example'),
      'cases/tarnholt/farm.md': farmFileOf('Tarnholt', 'tarn@tarnholt.example'),
      'cases/tarnholt/5.md': animalFile('5'),
    },
    setting,
  );
  const run = await growdown('post', '--all-due', '--send');
  expect(run.code).toBe(1);
  expect(taken.map(({ to }) => to[0])).toEqual(['nan@quernholt.example', 'tarn@tarnholt.example']);
  expect(run.err).toMatch(/brackmere: no mail: cases\/brackmere\/farm\.md: no address/);
  expect(run.err).toMatch(/oddmere: no mail, because of the errors above/);
  expect(run.out).toContain('stillmere  nothing is open, due or withheld, and no mail went before');
  expect(run.out).toMatch(/\n5 farms: 2 sent, 1 without news, 2 without mail for the reasons given\n$/);
  const again = await growdown('post', '--all-due', '--send');
  expect(again.out).toMatch(/quernholt {2}no news since \d{4}-[^]*tarnholt {2}no news since/);
  expect(taken).toHaveLength(2);
  put('cases/tarnholt/6.md', animalFile('6'));
  await growdown('post', '--all-due', '--send');
  expect(taken.map(({ to }) => to[0])).toEqual([
    'nan@quernholt.example',
    'tarn@tarnholt.example',
    'tarn@tarnholt.example',
  ]);
  expect(whatOf(folder, 'tarnholt')).toEqual(['begun', 'sent', 'begun', 'sent']);
});

test('of two runs at once one sends, and the other finds it sent', async () => {
  const { setting, taken } = await mailSink();
  let other: Promise<Run> | undefined;
  const send: Mailer = async (server, envelope) => {
    other ??= growdown('post', 'quernholt', '--send');
    return nodeMailer(server, envelope);
  };
  const { growdown } = mailFolder(quernholt, setting, { machine: { send } });
  expect((await growdown('post', 'quernholt', '--send')).code).toBe(0);
  expect((await other)!.err).toMatch(/what it says went to|ended before it heard/);
  expect(taken).toHaveLength(1);
});

test('a dry run to be sent reads the setting and speaks to nobody', async () => {
  const { setting, attempts } = await mailSink();
  const { folder, growdown } = mailFolder(quernholt, setting);
  const run = await growdown('post', 'quernholt', '--send', '--dry-run');
  expect(run.out).toMatch(/^quernholt {2}would be sent to nan@quernholt\.example; /);
  expect({ attempts, lines: linesOf(folder) }).toEqual({ attempts: [], lines: [] });
});
