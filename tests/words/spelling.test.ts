import { readFileSync } from 'node:fs';
import american from 'dictionary-en';
import british from 'dictionary-en-gb';
import nspell from 'nspell';
import { expect, test } from 'vitest';
import { messageWords, wordsOf, type Words } from '../../src/reference/words.js';
import { readme, topicTexts } from '../guide/shown.js';

/** Words the dictionaries lack: the trade's, short forms, computers', names. A word goes in only where it is right. */
const own = new Set(
  Object.values(
    JSON.parse(readFileSync(new URL('trade-words.json', import.meta.url), 'utf8')) as Record<
      string,
      string[]
    >,
  ).flatMap((list) => list.flatMap((word) => [word, word.charAt(0).toUpperCase() + word.slice(1)])),
);
const inBritain = nspell(british);
const inAmerica = nspell(american);

/** What is no prose: code, addresses, paths, flags, gaps. */
const noProse =
  /```[^]*?```|`[^`]*`|\]\([^)]*\)|<!--[^]*?-->|\{\w+\}|https?:\S+|--[\w-]+|\S+@\S+|\S*[/\\]\S*|\S+\.(?:md|json|jsonl|csv|html|txt|css|pem)\b/g;

function misspelt(text: string, speller: { correct(word: string): boolean }): string[] {
  const words = [...text.replaceAll(noProse, ' ').matchAll(/\p{L}[\p{L}’']*/gu)].map(([word]) =>
    word.replaceAll('’', "'").replace(/'s?$/, ''),
  );
  return [...new Set(words)]
    .filter((word) => word.length > 1 && !own.has(word) && !speller.correct(word))
    .sort();
}

/** `guide` is of the guide alone, which is British. */
const stringsOf = (words: Words): string =>
  words.keys
    .filter((key) => !key.startsWith('guide.'))
    .map((key) => words.template(key))
    .join('\n');

test('pages, problems and terminal, README and guide are spelled as in Britain', () => {
  expect(misspelt(stringsOf(wordsOf('en-GB')), inBritain)).toEqual([]);
  expect(misspelt(stringsOf(messageWords()), inBritain)).toEqual([]);
  expect(misspelt(readme, inBritain)).toEqual([]);
  for (const [name, text] of Object.entries(topicTexts)) expect(misspelt(text, inBritain), name).toEqual([]);
});

test('American pages are spelled as in the United States', () => {
  expect(misspelt(stringsOf(wordsOf('en-US')), inAmerica)).toEqual([]);
});

test('a slip is found, and so is a word of the other country', () => {
  expect(misspelt('The hoof is trimed.', inBritain)).toEqual(['trimed']);
  expect(misspelt('a gray liter, its color', inBritain)).toContain('color');
  expect(misspelt('a grey litre, its colour', inAmerica)).toEqual(['colour', 'grey', 'litre']);
});
