import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { TestProject } from 'vitest/node';

declare module 'vitest' {
  interface ProvidedContext {
    /** For what several files of tests share; it is gone when the run is over. */
    folder: string;
  }
}

export default function folderOfRun({ provide }: TestProject): () => void {
  const folder = mkdtempSync(join(tmpdir(), 'growdown-run-'));
  provide('folder', folder);
  return () => rmSync(folder, { recursive: true, force: true });
}
