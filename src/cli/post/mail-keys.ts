import { nearestWord } from '../../casefile/nearest-word.js';

/** What can be set for sending, each as a key of the private file and as a variable of the environment. */
export const mailKeys = {
  server: 'GROWDOWN_MAIL_SERVER',
  port: 'GROWDOWN_MAIL_PORT',
  tls: 'GROWDOWN_MAIL_TLS',
  user: 'GROWDOWN_MAIL_USER',
  password: 'GROWDOWN_MAIL_PASSWORD',
  sender: 'GROWDOWN_MAIL_SENDER',
  trust: 'GROWDOWN_MAIL_TRUST',
} as const;
export type MailKey = keyof typeof mailKeys;

/** What was set, each value with where it stands, for a message that must not print it. */
export type MailValues = { readonly [Key in MailKey]?: { readonly value: string; readonly place: string } };

export interface MailKeysRead {
  readonly values: MailValues;
  readonly troubles: readonly string[];
}

/**
 * Reads the private file: a line a key, `key: value`; what follows the colon is the value as it stands, but for space
 * before and after it. No value is ever in a message: a line out of place may be the password.
 */
export function readMailKeys(text: string, path: string): MailKeysRead {
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
    if (key === undefined)
      troubles.push(
        `${place}: expected \`key: value\`, the key in small letters and a space after the colon`,
      );
    else if (!isMailKey(key)) troubles.push(`${place}: no such key; ${keyMeant(key)}`);
    else if (values[key])
      troubles.push(`${place}: \`${key}\` stands twice, first at ${values[key].place}: keep one`);
    else if (value === '') troubles.push(`${place}: \`${key}\` has no value: write it, or take the line out`);
    else if (/^(["']).*\1$/.test(value))
      troubles.push(
        `${place}: \`${key}\` stands in quotes: take them off, what follows the colon is taken as it is`,
      );
    else values[key] = { value, place };
  }
  return { values, troubles };
}

/** What the environment sets; an empty variable sets nothing. */
export function mailKeysOf(env: Readonly<Record<string, string | undefined>>): MailValues {
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

function keyMeant(key: string): string {
  const known = Object.keys(mailKeys);
  const nearest = nearestWord(key, known);
  return nearest === undefined
    ? `the keys are ${known.map((one) => `\`${one}\``).join(' ')}`
    : `did you mean \`${nearest}\`?`;
}
