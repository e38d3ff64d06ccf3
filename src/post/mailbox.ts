import { domainToASCII } from 'node:url';

/** Whose mail it is: one address, with a name where one is known. */
export interface Mailbox {
  readonly name?: string;
  readonly address: string;
}

/**
 * One bare address, nothing else: no second one after a comma, no name in angle brackets, no space, no comment. A local
 * part in quotes would be allowed by RFC 5321 and is refused too, since what is in quotes may hold an address itself.
 */
const bareAddress =
  /^[^\s"(),:;<>@[\\\]\p{Cc}\p{Cf}]{1,64}@(?:[\p{L}\p{M}\p{N}](?:[\p{L}\p{M}\p{N}-]{0,61}[\p{L}\p{M}\p{N}])?\.)+[\p{L}\p{M}\p{N}-]{2,63}$/u;

/**
 * An address as a record gives it, with the name beside it; undefined where it is not one address and nothing more, so
 * that a message never goes anywhere but where the record says.
 *
 * @example mailboxOf('nan@quernholt.example', 'Nan') // → { name: 'Nan', address: 'nan@quernholt.example' }
 * @example mailboxOf('nan@quernholt.example, spare@quernholt.example') // → undefined
 */
export function mailboxOf(written: string, name?: string): Mailbox | undefined {
  const bare = written.trim();
  if (bare.length > 254 || !bareAddress.test(bare)) return undefined;
  const at = bare.lastIndexOf('@');
  const domain = domainToASCII(bare.slice(at + 1));
  if (domain === '') return undefined;
  // Domains are written in many ways and are one: in small letters and ASCII a server sends them back as they were given.
  const address = `${bare.slice(0, at)}@${domain}`;
  const said = name === undefined ? '' : oneLine(name);
  return said === '' ? { address } : { name: said, address };
}

/**
 * The addresses of a record's `email`, which may hold several after commas: each must be one and nothing more, or there
 * are none. The name beside them is the first one's.
 *
 * @example mailboxesOf('nan@quernholt.example, gil@quernholt.example', 'Nan') // → [{ name: 'Nan', address: 'nan@quernholt.example' }, { address: 'gil@quernholt.example' }]
 */
export function mailboxesOf(written: string, name?: string): readonly [Mailbox, ...Mailbox[]] | undefined {
  const [first, ...others] = written
    .split(/[,;]/)
    .map((address, at) => mailboxOf(address, at === 0 ? name : undefined));
  if (first === undefined || others.includes(undefined)) return undefined;
  const more = others.filter((one) => one !== undefined);
  const seen = new Set([first.address]);
  return [first, ...more.filter(({ address }) => !seen.has(address) && seen.add(address))];
}

/**
 * Text for a header: on one line, without a character that steers a line, a screen or the direction of writing, and
 * without the mark that begins an encoded word, in which all those could hide. So a name in a case file can add no header
 * of its own.
 *
 * @example oneLine('Quernholt\nBcc: x@y.example') // → 'Quernholt Bcc: x@y.example'
 */
export function oneLine(text: string): string {
  return text
    .replaceAll(/[\p{Cc}\p{Cf}\p{Zl}\p{Zp}\p{Cs}\s]+/gu, ' ')
    .replaceAll('=?', '= ?')
    .trim();
}
