import { isAbsolute, relative, resolve } from 'node:path';
import { type Mailbox, mailboxOf } from '../../post/mailbox.js';
import type { CommonOptions } from '../common-options.js';
import type { Effects } from '../effects.js';
import { WrongUse } from '../exit-code.js';
import type { MailMachine, PrivateFile } from './mail-machine.js';
import { mailKeysOf, type MailValues, readMailKeys } from './mail-keys.js';
import type { Mailer, MailServer } from './mailer.js';
import { serverSet } from './server-set.js';

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
    throw new WrongUse(
      `${path} lies among the case files, which are archived and handed on: keep the password elsewhere, as at ${machine.usualFile}`,
    );
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
  if (values.sender && !sender)
    troubles.push(
      `${values.sender.place}: \`sender\` is not one bare address, as in office@farmfeet.example`,
    );
  if (server === undefined || troubles.length > 0)
    throw new WrongUse(
      `nothing was sent, because of how sending is set:\n${troubles.map((one) => `  ${one}\n`).join('')}README tells how, under “By mail”`,
    );
  return { server, ...(sender ? { sender } : {}), send: machine.send, told };
}

function textOf(read: PrivateFile, path: string, isNamed: boolean): { text: string; told: string[] } {
  switch (read.outcome) {
    case 'read':
      return {
        text: read.text,
        told: read.checked
          ? []
          : [
              `${path} holds a password: on Windows this program cannot see who else may read it. Keep it in your own user folder`,
            ],
      };
    case 'not-there':
      if (isNamed)
        throw new WrongUse(
          `${fileVariable} names ${path}, and no file is there: write it, or clear the variable`,
        );
      return { text: '', told: [] };
    case 'not-readable':
      throw new WrongUse(`${path} cannot be read (${read.why}), so nothing was sent`);
    case 'another-users':
      throw new WrongUse(
        `${path} belongs to another user, who can read the password in it, so nothing was sent: make a file of your own`,
      );
    case 'open-to-others':
      throw new WrongUse(
        `${path} holds a password and others on this computer can read it (rights ${read.mode}), so nothing was sent. Close it to them:\n  chmod 600 "${path}"\nOn a drive that knows no rights, keep it in your home folder`,
      );
  }
}
