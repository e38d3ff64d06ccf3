import type { Animal } from '../record/animal.js';
import type { Found, Visit } from '../record/visit.js';
import type { Sign } from '../record/words.js';
import { codeOn } from '../record/code-of-lesion.js';
import { lesionKinds } from '../reference/lesions.js';
import { lesionInWords } from '../words/number-in-words.js';
import type { Words } from '../words/words.js';
import type { Fact } from './page-parts.js';
import { phrase } from './animal-page-data.js';

/** What was found of each lesion and mark at one visit, whole. */
export function findingsInWords(words: Words, animal: Animal, at: number): Fact[] {
  return Object.entries(animal.visits[at]?.found ?? {}).map(([name, found]) => ({
    label: nameInBook(words, animal, name, at),
    value: findingInWords(words, found),
  }));
}

/** A lesion or mark as the visits call it: its short name, then what it is. */
export function nameInBook(
  words: Words,
  animal: Animal,
  name: string,
  at = animal.visits.length - 1,
): string {
  const lesion = animal.lesions[name];
  if (lesion)
    return words.say('book.finding.named', {
      name,
      what: lesionKinds[codeOn(name, lesion, animal.visits, at)].name,
    });
  const mark = animal.marks?.[name];
  if (!mark) return name;
  const kind = mark['groove-from'] ? 'groove' : 'mark';
  return words.say('book.finding.named', { name, what: words.say(`book.finding.${kind}`) });
}

function findingInWords(words: Words, found: Found): string {
  const mm = (key: string, value: number | undefined) =>
    value === undefined ? undefined : words.say(`book.finding.${key}`, { value });
  const told = (list: string, value: string | undefined) => value && words.say(`vocabulary.${list}.${value}`);
  return phrase(
    found.lifted === false && words.say('book.finding.not-lifted'),
    found.lifted === true && words.say('book.finding.lifted'),
    found.code && words.say('book.finding.now-called', { lesion: lesionInWords(words, found.code) }),
    told('state', found.state),
    told('stage', found.stage),
    mm('top', found.top),
    told('top-found', found['top-found']),
    mm('wall', found.wall),
    found['wall-at'] && words.say('book.finding.wall-beside'),
    found['wall-lowered'] === true && words.say('book.finding.wall-lowered'),
    found['wall-lowered'] === false && words.say('book.finding.wall-not-lowered'),
    mm('width', found.width),
    mm('length', found.length),
    mm('depth', found.depth),
    mm('distance', found.distance),
    found.tool && words.say('book.finding.tool', { tool: words.say(`vocabulary.tool.${found.tool}`) }),
    found['wall-tool'] &&
      words.say('book.finding.wall-tool', { tool: words.say(`vocabulary.tool.${found['wall-tool']}`) }),
    ...(found.signs ?? []).map((sign) => words.say(`vocabulary.sign.${sign}`)),
    goneInWords(words, found.gone),
    found.infected !== undefined && words.say(`book.finding.infected.${found.infected}`),
    found['ran-up'] !== undefined && words.say(`book.finding.ran-up.${found['ran-up']}`),
    found['opened-further'] !== undefined &&
      words.say(`book.finding.opened-further.${found['opened-further']}`),
    found.joined && words.say('book.finding.joined', { name: found.joined }),
    found.note,
  );
}

function goneInWords(words: Words, gone: readonly Sign[] = []): string | undefined {
  const signs = gone.map((sign) => words.say(`vocabulary.sign.${sign}`)).join(', ');
  return signs === '' ? undefined : words.say('book.finding.gone', { signs });
}

/** What was seen of whole feet at one visit. */
export function feetInWords(words: Words, visit: Visit): Fact[] {
  return Object.entries(visit.feet ?? {}).map(([foot, seen]) => ({
    label: words.say(`vocabulary.foot.${foot}`),
    value: phrase(
      seen.lifted !== undefined && words.say(`book.finding.${seen.lifted ? 'lifted' : 'not-lifted'}`),
      ...(seen.signs ?? []).map((sign) => words.say(`vocabulary.sign.${sign}`)),
      goneInWords(words, seen.gone),
      seen.note,
    ),
  }));
}
