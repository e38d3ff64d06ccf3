import { readdirSync, readFileSync } from 'node:fs';

const root = new URL('../../', import.meta.url);

/** The README, and the text of every topic, by name. */
export const readme = readFileSync(new URL('README.md', root), 'utf8');
export const topicFiles = readdirSync(new URL('shared/guide/', root)).sort();
export const topicTexts: Readonly<Record<string, string>> = Object.fromEntries(
  topicFiles.map((name) => [
    name.replace('.md', ''),
    readFileSync(new URL(`shared/guide/${name}`, root), 'utf8'),
  ]),
);

/** The files the topics show, by the name above each. */
export const shownFiles: Readonly<Record<string, string>> = Object.fromEntries(
  Object.values(topicTexts).flatMap((text) =>
    [...text.matchAll(/^`(cases\/[^`]+\.md)`\n\n```\n([^]*?\n)```$/gm)].map(([, name, file]) => [
      name!,
      file!,
    ]),
  ),
);

/** The text of every block between fences. */
export function blocksOf(text: string): string[] {
  return [...text.matchAll(/^```\n([^]*?)^```$/gm)].map((match) => match[1]!);
}

/** A line of a command as the words a shell would hand on. */
export function wordsOfCommand(line: string): string[] {
  return [...line.matchAll(/(?:[^\s"']|"[^"]*"|'[^']*')+/g)]
    .slice(1)
    .map(([word]) =>
      word.replaceAll(/"([^"]*)"|'([^']*)'/g, (_, one?: string, two?: string) => one ?? two ?? ''),
    );
}
