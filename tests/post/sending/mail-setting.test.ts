import { chmodSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { describe, expect, onTestFinished, test } from 'vitest';
import type { MailMachine, PrivateFile } from '../../../src/run/effects.js';
import { mailSetting } from '../../../src/post/sending/mail-setting.js';
import { settingsFolder, nodePrivateFile } from '../../../src/cli/node-effects.js';

const secret = 'gate: latch #7';
const whole = `# our mail\nserver: mail.quillfen.example\nuser: office@quillfen.example\npassword: ${secret}\nsender: office@quillfen.example\n`;

function settingOf(
  file: string | PrivateFile,
  env: MailMachine['env'] = {},
  readText: MailMachine['readText'] = () => undefined,
) {
  const read: PrivateFile = typeof file === 'string' ? { outcome: 'read', text: file, checked: true } : file;
  const machine: MailMachine = {
    env,
    usualFile: '/home/mine/mail.txt',
    readPrivate: () => read,
    readText,
    send: () => Promise.reject(new Error('not here')),
  };
  return mailSetting(machine, { cases: './cases' }, { folder: '/farms/mine' });
}

function refusal(...given: Parameters<typeof settingOf>): string {
  try {
    settingOf(...given);
  } catch (error) {
    return (error as Error).message;
  }
  return 'not refused';
}

test('the private file sets server, login and sender; TLS and port follow RFC 6409 and RFC 8314', () => {
  expect(settingOf(whole)).toMatchObject({
    server: {
      host: 'mail.quillfen.example',
      port: 587,
      tls: 'starttls',
      login: { user: 'office@quillfen.example', password: secret },
    },
    sender: { address: 'office@quillfen.example' },
    told: [],
  });
  expect(settingOf(`${whole}port: 465\n`).server).toMatchObject({ port: 465, tls: 'implicit' });
  expect(settingOf(`${whole}tls: implicit\n`).server).toMatchObject({ port: 465, tls: 'implicit' });
  expect(settingOf(`\uFEFF${whole.replaceAll('\n', '\r\n')}`).server).toMatchObject({ port: 587 });
});

test('the environment alone does, and goes before the file', () => {
  const env = {
    GROWDOWN_MAIL_SERVER: 'mail.env.example',
    GROWDOWN_MAIL_USER: 'me',
    GROWDOWN_MAIL_PASSWORD: 'other',
    GROWDOWN_MAIL_SENDER: '',
  };
  expect(settingOf({ outcome: 'not-there' }, env).server).toMatchObject({
    host: 'mail.env.example',
    login: { user: 'me', password: 'other' },
  });
  expect(settingOf(whole, { GROWDOWN_MAIL_PASSWORD: 'other' }).server.login).toEqual({
    user: 'office@quillfen.example',
    password: 'other',
  });
});

test('all that is wrong is reported at once, by line, and never what is there', () => {
  const said = refusal(
    [
      'server: mail box',
      'port: 99999',
      'tls: none',
      `pasword: ${secret}`,
      secret,
      'user: office',
      'user: again',
      `password: "${secret}"`,
      'sender: office',
      'trust: gone.pem',
    ].join('\n'),
  );
  for (const line of [1, 2, 3, 4, 5, 7, 8, 9, 10]) expect(said).toContain(`mail.txt:${line}: `);
  expect(said).toMatch(/did you mean `password`/);
  expect(said).toMatch(/`tls` is `starttls` or `implicit`; without TLS nothing is sent/);
  expect(said).not.toContain(secret);
  expect(said).not.toContain('mail box');
});

test.each([
  ['user: me\npassword: x\n', /no `server`[^]*GROWDOWN_MAIL_SERVER/],
  ['server: mail.example\nuser: me\n', /no `password`[^]*GROWDOWN_MAIL_PASSWORD/],
  ['server: mail.example\npassword: x\n', /no `user`/],
  [{ outcome: 'not-there' } as const, /no `server`: write `server: …` into \/home\/mine\/mail\.txt/],
  [{ outcome: 'open-to-others', mode: '644' } as const, /rights 644[^]*chmod 600 "\/home\/mine\/mail\.txt"/],
  [{ outcome: 'another-users' } as const, /belongs to another user/],
  [{ outcome: 'not-readable', why: 'EACCES' } as const, /cannot be read \(EACCES\)/],
])('%j', (file, said) => {
  expect(refusal(file)).toMatch(said);
});

test('a file that is named must be there, and not among the case files', () => {
  expect(refusal({ outcome: 'not-there' }, { GROWDOWN_MAIL_FILE: 'mail.txt' })).toContain(
    `GROWDOWN_MAIL_FILE names ${resolve('/farms/mine/mail.txt')}, and no file is there`,
  );
  expect(refusal(whole, { GROWDOWN_MAIL_FILE: 'cases/mail.txt' })).toContain('is among the case files');
  expect(settingOf(whole, { GROWDOWN_MAIL_FILE: 'cases-mail.txt' }).server.host).toBe(
    'mail.quillfen.example',
  );
});

test('where the rights of a file cannot be seen, that is said', () => {
  expect(settingOf({ outcome: 'read', text: whole, checked: false }).told).toEqual([
    expect.stringContaining('cannot see who else may read it'),
  ]);
});

test('each system keeps it where a user keeps settings', () => {
  expect(settingsFolder('linux', {}, '/home/x')).toBe('/home/x/.config');
  expect(settingsFolder('linux', { XDG_CONFIG_HOME: '/c' }, '/home/x')).toBe('/c');
  expect(settingsFolder('darwin', {}, '/Users/x')).toBe('/Users/x/Library/Application Support');
  expect(settingsFolder('win32', { APPDATA: 'C:\\Users\\x\\AppData\\Roaming' }, 'C:\\Users\\x')).toBe(
    'C:\\Users\\x\\AppData\\Roaming',
  );
});

describe.skipIf(process.platform === 'win32')('a private file on this disk', () => {
  const written = (mode: number) => {
    const folder = mkdtempSync(join(tmpdir(), 'growdown-'));
    onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
    const path = join(folder, 'mail.txt');
    writeFileSync(path, whole);
    chmodSync(path, mode);
    return { folder, path };
  };

  test.each([0o600, 0o400])('%d is read', (mode) => {
    expect(nodePrivateFile(written(mode).path)).toEqual({ outcome: 'read', text: whole, checked: true });
  });

  test.each([0o644, 0o640, 0o604, 0o620, 0o602, 0o700 | 0o011])('%d is open to others', (mode) => {
    expect(nodePrivateFile(written(mode).path)).toEqual({
      outcome: 'open-to-others',
      mode: mode.toString(8),
    });
  });

  test('none there, and a folder in its place', () => {
    const { folder } = written(0o600);
    expect(nodePrivateFile(join(folder, 'none.txt'))).toEqual({ outcome: 'not-there' });
    mkdirSync(join(folder, 'mine'));
    expect(nodePrivateFile(join(folder, 'mine'))).toMatchObject({ outcome: 'not-readable' });
  });
});
