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

/** What was set, each value with where it stands, for a message that must not print it. */
type MailValues = { readonly [Key in MailKey]?: { readonly value: string; readonly place: string } };

interface MailKeysRead {
  readonly values: MailValues;
  readonly troubles: readonly string[];
}

/**
 * Reads the private file: a line a key, `key: value`; what follows the colon is the value as it stands, but for space
 * before and after it. No value is ever in a message: a line out of place may be the password.
 */
function readMailKeys(text: string, path: string): MailKeysRead {
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
  return near === undefined
    ? terminal('mail.set.no-key', { place, keys: known.map((one) => `\`${one}\``).join(' ') })
    : terminal('mail.set.key-near', { place, near });
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
 * Error: WrongUse with all that is wrong at once, each with how to mend it
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
  const troubles = [...file.troubles];
  const server = serverSet(
    values,
    { file: path, readTrust: (at) => machine.readText(resolve(effects.folder, at)) },
    troubles,
  );
  const sender = values.sender && mailboxOf(values.sender.value);
  if (values.sender && !sender) troubles.push(terminal('mail.set.sender', { place: values.sender.place }));
  if (server === undefined || troubles.length > 0)
    throw new WrongUse(
      [terminal('mail.set.wrong'), ...troubles.map((one) => `  ${one}`), terminal('mail.set.how')].join('\n'),
    );
  return { server, ...(sender ? { sender } : {}), send: machine.send, told };
}

function textOf(read: PrivateFile, path: string, isNamed: boolean): { text: string; told: string[] } {
  switch (read.outcome) {
    case 'read':
      return {
        text: read.text,
        told: read.checked ? [] : [terminal('mail.file.unchecked', { path })],
      };
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

interface Around {
  /** The private file, for a message that says where to write. */
  readonly file: string;
  /** The text of a certificate's file; undefined where none can be read. */
  readonly readTrust: (path: string) => string | undefined;
}

/** The server out of what is set; what is wrong with it is added to the troubles. */
function serverSet(
  values: MailValues,
  { file, readTrust }: Around,
  troubles: string[],
): MailServer | undefined {
  const { server, user, password } = values;
  const missing = (key: MailKey) => terminal('mail.set.missing', { key, file, variable: mailKeys[key] });
  if (!server) troubles.push(missing('server'));
  else if (!/^[\p{L}\p{N}.:-]+$/u.test(server.value))
    troubles.push(terminal('mail.set.server', { place: server.place }));
  if (user && !password) troubles.push(missing('password'));
  if (password && !user) troubles.push(missing('user'));
  const tls = tlsOf(values, troubles);
  const port = portOf(values, tls, troubles);
  const trust = trustOf(values, readTrust, troubles);
  return (
    server && {
      host: server.value,
      port,
      tls,
      ...(user && password ? { login: { user: user.value, password: password.value } } : {}),
      ...given({ trust }),
    }
  );
}

function tlsOf({ tls, port }: MailValues, troubles: string[]): MailServer['tls'] {
  if (!tls) return port?.value === '465' ? 'implicit' : 'starttls';
  if (tls.value !== 'implicit' && tls.value !== 'starttls')
    troubles.push(terminal('mail.set.tls', { place: tls.place }));
  return tls.value === 'implicit' ? 'implicit' : 'starttls';
}

/** The ports of submission: RFC 6409, and RFC 8314 for TLS from the start. */
function portOf({ port }: MailValues, tls: MailServer['tls'], troubles: string[]): number {
  if (!port) return tls === 'implicit' ? 465 : 587;
  const number = Number(port.value);
  if (!/^\d{1,5}$/.test(port.value) || number < 1 || number > 65_535)
    troubles.push(terminal('mail.set.port', { place: port.place }));
  return number;
}

function trustOf(
  { trust }: MailValues,
  readTrust: Around['readTrust'],
  troubles: string[],
): string | undefined {
  if (!trust) return undefined;
  const pem = readTrust(trust.value);
  if (pem !== undefined && isCertificate(pem)) return pem;
  troubles.push(terminal('mail.set.trust', { place: trust.place }));
  return undefined;
}

function isCertificate(pem: string): boolean {
  try {
    void new X509Certificate(pem);
    return true;
  } catch {
    return false;
  }
}
