import { readFileSync } from 'node:fs';
import { z } from 'zod';
import { readShared } from '../reference/read-shared.js';

/** How the guide and the help in the terminal are put together: names only, the text is in `shared/guide/`. */
export const guideFacts = readShared(
  'guide.json',
  z.strictObject({
    /** The topics of each part of the guide, in order. */
    parts: z.record(z.string(), z.array(z.string())),
    /** The commands of each group of `growdown --help`, in order. */
    commands: z.record(z.string(), z.array(z.string())),
    /** The topic that says more of a command. */
    more: z.record(z.string(), z.string()),
    /** By command and flag: what may appear behind a flag that takes a group of keys. */
    examples: z.record(z.string(), z.record(z.string(), z.string())),
  }),
);

export interface Topic {
  readonly name: string;
  readonly title: string;
  /** Markdown, without its title. */
  readonly text: string;
}

/**
 * A topic of the guide.
 *
 * Error:   undefined where there is none of that name; throws where one that the guide lists has no file
 * Checked: tests/guide/topics.test.ts
 */
export function topicNamed(name: string): Topic | undefined {
  if (!topicNames.includes(name)) return undefined;
  const file = readFileSync(new URL(`../../shared/guide/${name}.md`, import.meta.url), 'utf8');
  const end = file.indexOf('\n');
  return { name, title: file.slice(2, end), text: file.slice(end).trim() };
}

export const topicNames = Object.values(guideFacts.parts).flat();
