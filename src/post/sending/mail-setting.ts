import { isAbsolute, relative, resolve } from 'node:path';
import { type Mailbox, mailboxOf } from '../mailbox.js';
import { type CommonOptions, WrongUse } from '../../run/exit-code.js';
import type { Effects, MailMachine, PrivateFile, Mailer, MailServer } from '../../run/effects.js';
import { X509Certificate } from 'node:crypto';
import { nearestWord } from '../../casefile/nearest-word.js';
import { given } from '../../record/given.js';
import { terminal } from '../../problem/message.js';

/** What can be set for sending, each as a key of the private file and as a variable of the environment. */
const mailKeys = {
  server: 'GROWDOWN_MAIL_SERVER',
  port: 'GROWDOWN_MAIL_PORT',
  tls: 'GROWDOWN_MAIL_TLS',
  user: 'GROWDOWN_MAIL_USER',
  password: 'GROWDOWN_MAIL_PASSWORD',
  sender: 'GROWDOWN_MAIL_SENDER',
  trust: 'GROWDOWN_MAIL_TRUST',
} as const;
type MailKey = keyof typeof mailKeys;

/** What was set, each value with where it is, for a message that must not print it. */
type MailValues = { readonly [Key in MailKey]?: { readonly value: string; readonly place: string } };

/**
 * Reads the private file: a line a key, `key: value`; what follows the colon is the value as it stands, but for space
 * before and after it. No value is ever in a message: a line out of place may be the password.
 */
function readMailKeys(text: string, path: string) {
  const values: { [Key in MailKey]?: { value: string; place: string } } = {};
  const troubles: string[] = [];
  for (const [at, line] of text
    .replace(/^\u{FEFF}/u, '')
    .split(/\r\n|\r|\n/)
    .entries()) {
    const place = `${path}:${at + 1}`;
    if (line.trim() === '' || line.trimStart().startsWith('#')) continue;
    const parts = /^\s*([a-z]+)\s*:(?:\s+(.*))?$/.exec(line);
    const key = parts?.[1];
    const value = parts?.[2]?.trim() ?? '';
    if (key === undefined) troubles.push(terminal('mail.set.no-line', { place }));
    else if (!isMailKey(key)) troubles.push(noSuchKey(key, place));
    else if (values[key]) troubles.push(terminal('mail.set.twice', { place, key, first: values[key].place }));
    else if (value === '') troubles.push(terminal('mail.set.no-value', { place, key }));
    else if (/^(["']).*\1$/.test(value)) troubles.push(terminal('mail.set.quoted', { place, key }));
    else values[key] = { value, place };
  }
  return { values, troubles };
}

/** What the environment sets; an empty variable sets nothing. */
function mailKeysOf(env: Readonly<Record<string, string | undefined>>): MailValues {
  return Object.fromEntries(
    Object.entries(mailKeys).flatMap(([key, name]) => {
      const value = env[name];
      return value === undefined || value === '' ? [] : [[key, { value, place: name }]];
    }),
  );
}

function isMailKey(key: string): key is MailKey {
  return Object.hasOwn(mailKeys, key);
}

function noSuchKey(key: string, place: string): string {
  const known = Object.keys(mailKeys);
  const near = nearestWord(key, known);
  if (near !== undefined) return terminal('mail.set.key-near', { place, near });
  return terminal('mail.set.no-key', { place, keys: known.map((one) => `\`${one}\``).join(' ') });
}

/** How mail is sent from this computer. */
export interface MailSetting {
  readonly server: MailServer;
  /** Undefined: the business's own address. */
  readonly sender?: Mailbox;
  readonly send: Mailer;
  /** Said to the user before anything is sent. */
  readonly told: readonly string[];
}

const fileVariable = 'GROWDOWN_MAIL_FILE';

/**
 * What the environment and the private file set, the environment first; nothing of it is ever printed.
 *
 * Error: WrongUse with all that is wrong at once, each with how to fix it
 */
export function mailSetting(
  machine: MailMachine,
  { cases }: Pick<CommonOptions, 'cases'>,
  effects: Pick<Effects, 'folder'>,
): MailSetting {
  const named = machine.env[fileVariable] || undefined;
  const path = named === undefined ? machine.usualFile : resolve(effects.folder, named);
  const inCases = relative(resolve(effects.folder, cases), path);
  if (!inCases.startsWith('..') && !isAbsolute(inCases))
    throw new WrongUse(terminal('mail.file.in-cases', { path, usual: machine.usualFile }));
  const { text, told } = textOf(machine.readPrivate(path), path, named !== undefined);
  const file = readMailKeys(text, path);
  const values: MailValues = { ...file.values, ...mailKeysOf(machine.env) };
  const trust = values.trust && machine.readText(resolve(effects.folder, values.trust.value));
  const troubles = [...file.troubles, ...troublesOf(values, path, trust)];
  if (troubles.length > 0)
    throw new WrongUse(
      [terminal('mail.set.wrong'), ...troubles.map((one) => `  ${one}`), terminal('mail.set.how')].join('\n'),
    );
  const { server, port, tls, user, password, sender } = values;
  // The ports of submission: RFC 6409, and RFC 8314 for TLS from the start.
  const isImplicit = (tls?.value ?? (port?.value === '465' ? 'implicit' : 'starttls')) === 'implicit';
  return {
    server: {
      host: server!.value,
      port: port ? Number(port.value) : isImplicit ? 465 : 587,
      tls: isImplicit ? 'implicit' : 'starttls',
      ...given({ login: user && password && { user: user.value, password: password.value }, trust }),
    },
    ...given({ sender: sender && mailboxOf(sender.value) }),
    send: machine.send,
    told,
  };
}

/** What is wrong with what is set, or missing; `file` is where it may be written, `trust` the text of the certificate. */
function troublesOf(values: MailValues, file: string, trust: string | undefined): string[] {
  const isWell: { readonly [Key in MailKey]?: (value: string) => boolean } = {
    server: (value) => /^[\p{L}\p{N}.:-]+$/u.test(value),
    tls: (value) => value === 'implicit' || value === 'starttls',
    port: (value) => /^\d{1,5}$/.test(value) && Number(value) >= 1 && Number(value) <= 65_535,
    trust: () => trust !== undefined && isCertificate(trust),
    sender: (value) => mailboxOf(value) !== undefined,
  };
  const { server, user, password } = values;
  const missing = (key: MailKey, is: boolean): string[] =>
    is ? [terminal('mail.set.missing', { key, file, variable: mailKeys[key] })] : [];
  const wrong = (key: MailKey): string[] => {
    const set = values[key];
    return !set || isWell[key]!(set.value) ? [] : [terminal(`mail.set.${key}`, { place: set.place })];
  };
  return [
    ...missing('server', !server),
    ...wrong('server'),
    ...missing('password', user !== undefined && !password),
    ...missing('user', password !== undefined && !user),
    ...(['tls', 'port', 'trust', 'sender'] as const).flatMap(wrong),
  ];
}

function textOf(read: PrivateFile, path: string, isNamed: boolean): { text: string; told: string[] } {
  switch (read.outcome) {
    case 'read':
      return { text: read.text, told: read.checked ? [] : [terminal('mail.file.unchecked', { path })] };
    case 'not-there':
      if (isNamed) throw new WrongUse(terminal('mail.file.not-there', { variable: fileVariable, path }));
      return { text: '', told: [] };
    case 'not-readable':
      throw new WrongUse(terminal('mail.file.not-readable', { path, code: read.why }));
    case 'another-users':
      throw new WrongUse(terminal('mail.file.another-users', { path }));
    case 'open-to-others':
      throw new WrongUse(terminal('mail.file.open-to-others', { path, mode: read.mode }));
  }
}

function isCertificate(pem: string): boolean {
  try {
    void new X509Certificate(pem);
    return true;
  } catch {
    return false;
  }
}
