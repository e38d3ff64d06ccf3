import { chmodSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Effects, MailMachine, MailServer } from '../../../src/run/effects.js';
import { nodeMailer } from '../../../src/post/sending/node-mailer.js';
import { nodeMail } from '../../../src/cli/node-effects.js';
import { animalFile, folderWith } from '../../cli/run-in-folder.js';

export const businessFile = `---
business: Quillfen Foot Trimming
trimmer: Marra Quillfen
email: office@quillfen.example
phone: "01632 960140"
reply-to: desk@quillfen.example
---
`;

export function farmFileOf(name: string, email?: string, more = ''): string {
  return `---
farm: ${name}
gait-scale: uk-0-3
herd: { cows: 210, housing: housed }
hemisphere: north
${email === undefined ? '' : `contact: { name: "Nan of ${name}", email: "${email}" }\n`}${more}---
`;
}

export const quernholt = {
  'cases/business.md': businessFile,
  'cases/quernholt/farm.md': farmFileOf('Quernholt', 'nan@quernholt.example'),
  'cases/quernholt/2086.md': animalFile('2086'),
};

/** The lines of a private file for a server, as a user would write them. */
export function privateFile({ host, port, tls, login }: MailServer, trust: string): string {
  return [
    '# how mail is sent',
    `server: ${host}`,
    `port: ${port}`,
    `tls: ${tls}`,
    ...(login ? [`user: ${login.user}`, `password: ${login.password}`] : []),
    `trust: ${trust}`,
    '',
  ].join('\n');
}

/** A folder of case files with a private file beside them for a server, and a `growdown` that can send. */
export function mailFolder(
  files: Readonly<Record<string, string | Uint8Array>>,
  server?: MailServer,
  changed: Partial<Effects> & { readonly machine?: Partial<MailMachine> } = {},
) {
  const { machine, ...effects } = changed;
  const real = nodeMail();
  let usual = '/nowhere/mail.txt';
  const mail: MailMachine = {
    env: {},
    get usualFile() {
      return usual;
    },
    readPrivate: real.readPrivate,
    readText: real.readText,
    send: nodeMailer,
    ...machine,
  };
  /** Read anew by every run: a test may change it between two. */
  const given: { -readonly [Key in keyof Effects]?: Effects[Key] } = { mail, ...effects };
  const made = folderWith(files, given);
  usual = join(made.folder, 'mine', 'mail.txt');
  if (server) {
    made.put('mine/trust.pem', server.trust ?? '');
    made.put('mine/mail.txt', '');
    writeFileSync(usual, privateFile(server, 'mine/trust.pem'));
    chmodSync(usual, 0o600);
  }
  return { ...made, usual, given };
}
