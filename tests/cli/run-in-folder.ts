import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join, resolve } from 'node:path';
import { onTestFinished } from 'vitest';
import type { CaseFiles } from '../../src/casefile/source-text.js';
import { nodeCaseFiles } from '../../src/casefile/node-case-files.js';
import { nodeArchiveDisk, type Machine, nodeDisk, thisMachine } from '../../src/cli/node-disk.js';
import type { Effects } from '../../src/run/effects.js';
import { runCommand } from '../../src/cli/run-command.js';

export interface Run {
  readonly code: number;
  readonly out: string;
  readonly err: string;
}

/** A folder of its own for one test, filled with the files given, and a `growdown` that runs in it. */
export function folderWith(
  files: Readonly<Record<string, string | Uint8Array>>,
  changed: Partial<Effects> = {},
  afterwards: (remove: () => void) => void = onTestFinished,
  machine: Machine = thisMachine,
) {
  const folder = mkdtempSync(join(tmpdir(), 'growdown-'));
  afterwards(() => rmSync(folder, { recursive: true, force: true }));
  const put = (name: string, content: string | Uint8Array) => {
    mkdirSync(dirname(join(folder, name)), { recursive: true });
    writeFileSync(join(folder, name), content);
  };
  for (const [name, content] of Object.entries(files)) put(name, content);
  const growdown = async (...words: string[]): Promise<Run> => {
    let out = '';
    let err = '';
    const disk = nodeDisk(folder, filesFrom(folder), changed.today ?? (() => '2026-06-16'), machine);
    const code = await runCommand(words, {
      folder,
      today: () => '2026-06-16',
      files: filesFrom(folder),
      writeFile: disk.replace,
      disk,
      bags: nodeArchiveDisk(folder, machine),
      browser: () => ({ missing: 'none-installed' }),
      readInput: () => new Uint8Array(),
      dialogue: undefined,
      print: (text) => void (out += text),
      warn: (text) => void (err += text),
      terminalWidth: undefined,
      ...changed,
    });
    return { code, out, err };
  };
  return { folder, put, growdown };
}

/** The files of this computer, with paths from a folder: what a run in that folder would see. */
export function filesFrom(folder: string): CaseFiles {
  const at = (path: string) => resolve(folder, path);
  return {
    look: (path) => nodeCaseFiles.look(at(path)),
    list: (path) => nodeCaseFiles.list(at(path)),
    read: (path) => nodeCaseFiles.read(at(path)),
    readStart: (path, bytes) => nodeCaseFiles.readStart(at(path), bytes),
    realPath: (path) => nodeCaseFiles.realPath(at(path)),
  };
}

export const farmFile = `---
farm: Quernholt
gait-scale: uk-0-3
herd: { cows: 210, housing: housed }
hemisphere: north
---
`;

export function animalFile(number: string, found = 'top: 17, top-found: seen, wall: 43, tool: tape'): string {
  return `---
casefile: 1
animal: "${number}"
calvings: [2023-09-30, 2024-10-19]
lesions:
  a: { code: WL, foot: LH, claw: outer, site: white line rear, line: heel }
visits:
  - date: 2026-01-06
    by: Orla Venn
    kind: first
    gait: 2
    found:
      a: { state: open, ${found} }
---

Invented for a test.
`;
}
