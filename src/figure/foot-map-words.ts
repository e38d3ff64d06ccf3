import type { Words } from '../words/words.js';
import type { FigureTable } from './figure.js';
import type { FootMapInput, FootMapLesion } from './foot-map-input.js';
import type { FootSpot } from './foot-spots.js';
import { px } from './svg-mark.js';

/** Each lesion with its full name and place, one sentence each. */
export function lesionsInWords({ lesions }: FootMapInput, foot: string, words: Words): string[] {
  return lesions.map((lesion) =>
    words.say('figure.foot.mark', {
      lesion: lesion.lesion,
      name: lesion.name,
      where: whereInWords(lesion, foot, words),
    }),
  );
}

/** What the marks mean: only those that occur. */
export function footMapNotes(
  input: FootMapInput,
  spots: readonly FootSpot[],
  foot: string,
  words: Words,
): string[] {
  const say = (key: string) => words.say(`figure.foot.note.${key}`);
  return [
    ...lesionsInWords(input, foot, words),
    ...(spots.some(({ was }) => was) ? [say('healed')] : []),
    ...(spots.some(({ from }) => from) ? [say('came-down')] : []),
    say('place'),
  ];
}

/** Every lesion with its place, and of a measured gap how far down its top stands and stood first. */
export function footMapTable({ lesions }: FootMapInput, foot: string, words: Words): FigureTable {
  const say = (key: string) => words.say(`figure.foot.column.${key}`);
  const measured = lesions.some(({ gap }) => gap);
  const mm = (value: number | undefined) => (value === undefined ? '' : px(value));
  return {
    caption: words.say('figure.foot.caption', { foot }),
    columns: [say('lesion'), say('name'), say('where'), ...(measured ? [say('first'), say('now')] : [])],
    rows: lesions.map((lesion) => [
      lesion.lesion,
      lesion.name,
      whereInWords(lesion, foot, words),
      ...(measured ? [mm(lesion.gap?.firstMm), mm(lesion.gap?.topMm)] : []),
    ]),
  };
}

function whereInWords({ claw, site, healed }: FootMapLesion, foot: string, words: Words): string {
  const parts = [
    claw && words.say(`vocabulary.claw.${claw}`),
    site && words.say(`vocabulary.site.${site}`),
  ].filter((part) => part !== undefined);
  const where = parts.length ? parts.join(', ') : words.say('figure.foot.whole', { foot });
  return healed ? words.say('figure.foot.was', { where }) : where;
}
