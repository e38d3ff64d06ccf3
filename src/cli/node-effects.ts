import { existsSync, readFileSync } from 'node:fs';
import { nodeCaseFiles } from '../casefile/node-case-files.js';
import { findBrowser } from '../pdf/find-browser.js';
import { browserPlaces } from '../reference/browser-places.js';
import { nodeArchiveDisk } from './archive/node-archive-disk.js';
import type { Effects } from './effects.js';
import { localToday } from './local-today.js';
import { nodeDialogue } from './node-dialogue.js';
import { type Machine, nodeDisk, thisMachine } from './node-disk.js';
import { nodeWatch } from './watch/node-watch.js';
import { nodeMail } from './post/node-mail.js';
import { nodeYard } from './yard/node-yard.js';

/** The effects of a real run; a test hands in a machine that stops. */
export function nodeEffects(machine: Machine = thisMachine): Effects {
  const disk = nodeDisk(process.cwd(), nodeCaseFiles, undefined, machine);
  return {
    folder: process.cwd(),
    today: () => localToday(),
    files: nodeCaseFiles,
    writeFile: disk.replace,
    disk,
    bags: nodeArchiveDisk(process.cwd(), machine),
    browser: () =>
      findBrowser({
        platform: process.platform,
        env: process.env,
        places: browserPlaces,
        isThere: existsSync,
      }),
    readInput: () => readFileSync(0),
    dialogue: nodeDialogue(),
    mail: nodeMail(),
    // Only who serves forms or watches listens for the signals that end a program.
    get yard() {
      return nodeYard();
    },
    get watch() {
      return nodeWatch();
    },
    print: (text) => void process.stdout.write(text),
    warn: (text) => void process.stderr.write(text),
    terminalWidth: process.stderr.isTTY ? process.stderr.columns : undefined,
  };
}
