import { readFileSync } from 'node:fs';
import { homedir } from 'node:os';
import { join } from 'node:path';
import type { MailMachine } from './mail-machine.js';
import { nodePrivateFile } from './node-private-file.js';

/** Of this computer. The mail library is loaded when something is sent. */
export function nodeMail(): MailMachine {
  return {
    env: process.env,
    usualFile: join(settingsFolder(process.platform, process.env, homedir()), 'growdown', 'mail.txt'),
    readPrivate: nodePrivateFile,
    readText,
    send: async (server, envelope) => {
      const { nodeMailer } = await import('./node-mailer.js');
      return nodeMailer(server, envelope);
    },
  };
}

/** Where each system keeps a user's settings. */
export function settingsFolder(
  platform: string,
  env: Readonly<Record<string, string | undefined>>,
  home: string,
): string {
  if (platform === 'win32') return env['APPDATA'] ?? join(home, 'AppData', 'Roaming');
  if (platform === 'darwin') return join(home, 'Library', 'Application Support');
  return env['XDG_CONFIG_HOME'] || join(home, '.config');
}

function readText(path: string): string | undefined {
  try {
    return readFileSync(path, 'utf8');
  } catch {
    return undefined;
  }
}
