import { randomBytes, randomUUID } from 'node:crypto';
import { accessSync, chmodSync, constants, readFileSync } from 'node:fs';
import { networkInterfaces } from 'node:os';
import { z } from 'zod';
import { nodeCaseFiles } from '../../casefile/node-case-files.js';
import { nodeDisk } from '../node-disk.js';
import type { YardMachine } from './yard-machine.js';

const remembered = z.strictObject({ day: z.string(), token: z.string().regex(/^[\w-]{32}$/) });

/** Of this computer. */
export function nodeYard(): YardMachine {
  return {
    token: (file, day) => tokenOfDay(file, day) ?? newToken(file, day),
    formId: () => randomUUID(),
    mayWrite: (folder) => {
      try {
        accessSync(folder, constants.W_OK);
        return true;
      } catch {
        return false;
      }
    },
    addresses: () =>
      Object.values(networkInterfaces()).flatMap((all) =>
        (all ?? []).flatMap(({ family, internal, address }) =>
          family === 'IPv4' && !internal ? [address] : [],
        ),
      ),
    stopped: new Promise((resolve) => {
      process.once('SIGINT', () => resolve());
      process.once('SIGTERM', () => resolve());
    }),
  };
}

function tokenOfDay(file: string, day: string): string | undefined {
  try {
    const read = remembered.parse(JSON.parse(readFileSync(file, 'utf8')));
    return read.day === day ? read.token : undefined;
  } catch {
    return undefined;
  }
}

/** 192 bits by chance. Where it cannot be remembered, it holds for this run. */
function newToken(file: string, day: string): string {
  const token = randomBytes(24).toString('base64url');
  try {
    nodeDisk('', nodeCaseFiles).replace(file, `${JSON.stringify({ day, token })}\n`);
    chmodSync(file, 0o600);
  } catch {
    return token;
  }
  return token;
}
