import { lesionKinds } from '../../src/reference/lesions.js';
import type { Claw, Foot, LesionCode } from '../../src/record/words.js';
import { dayInWords, placeInWords } from '../../src/words/day-and-place.js';
import { saidAt, type Words } from '../../src/reference/words.js';

/** How a value of a closed list reads, by the key it is under. */
const lists: Record<string, string> = {
  site: 'site',
  line: 'line',
  state: 'state',
  stage: 'stage',
  'top-found': 'top-found',
  tool: 'tool',
  'wall-tool': 'tool',
  gone: 'sign',
  kind: 'visit-kind',
  event: 'event',
  'carrying-claw': 'carrying-claw',
  material: 'material',
  class: 'product-class',
  'pain-relief': 'pain-relief',
  what: 'task',
  view: 'view',
  when: 'moment',
  result: 'result',
  'gait-scale': 'gait-scale',
  scale: 'gait-scale',
  'condition-scale': 'condition-scale',
  housing: 'housing',
  hemisphere: 'hemisphere',
  language: 'language',
  dates: 'dates',
  send: 'send',
  form: 'copper-form',
};

/** A yes or no of an answer of the vet is in words of its own; any other in those of its key. */
const ofAnswer: Record<string, string> = { closes: 'vet-closes', treated: 'treated' };

/** One value of a record: where it is, its key, and what is beside it. */
export interface Leaf {
  readonly path: string;
  readonly key: string;
  readonly value: string | number | boolean;
  readonly beside: Record<string, unknown>;
}

/** Every value of a record, however deep. */
export function leaves(value: unknown, path: string, key: string, beside: Record<string, unknown>): Leaf[] {
  if (Array.isArray(value)) return value.flatMap((each, at) => leaves(each, `${path}[${at}]`, key, beside));
  if (typeof value === 'object' && value !== null)
    return Object.entries(value).flatMap(([name, each]) =>
      leaves(each, `${path}.${name}`, name, value as Record<string, unknown>),
    );
  return [{ path, key, value: value as string | number | boolean, beside }];
}

/** What must be in the book for a value; undefined where the format itself keeps it out of the book. */
export function expectedText(words: Words, { path, key, value, beside }: Leaf): string | undefined {
  if (path.startsWith('animal.earlier') && key === 'farm') return undefined; // a former farm's name is never printed
  if (key === 'wall-at') return words.say('key.wall-at.log');
  if (key === 'foot' || key === 'trimmed') return words.say(`vocabulary.foot.${value}`);
  if (key === 'claw') return placeInWords(words, beside['foot'] as Foot, value as Claw);
  if (key === 'code') return lesionKinds[value as LesionCode].name;
  if (value === 'unknown') return words.say('book.log.day-unknown');
  if (typeof value === 'boolean') {
    const own = saidAt(
      words,
      'log',
      path
        .replace(/^animal\./, '')
        .replaceAll(/\[\d+\]/g, '')
        .replace(/\.(?:found|feet)\.[^.]+\./, (whole) => whole.replace(/[^.]+\.$/, '')),
    );
    const told = `${ofAnswer[key] ? `book.log.${ofAnswer[key]}` : own}.${value}`;
    return words.say(words.has(told) ? told : `form.word.${value ? 'yes' : 'no'}`);
  }
  const shared = { signs: ['sign', 'animal-sign'], about: ['foot', 'sign', 'animal-sign', 'about'] }[key];
  const of = shared?.find((one) => words.has(`vocabulary.${one}.${value}`));
  if (of) return words.say(`vocabulary.${of}.${value}`);
  const list = lists[key];
  if (list) return words.say(`vocabulary.${list}.${value}`);
  if (typeof value === 'string' && /^\d{4}-\d{2}-\d{2}$/.test(value)) return dayInWords(words, value);
  return String(value);
}
