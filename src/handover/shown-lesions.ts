import type { ActionBox } from '../book/animal-page-data.js';
import { episodesOf } from '../healing/episode.js';
import { type LesionStanding, standingOrder } from '../healing/standing.js';
import { isOpenStanding, lesionSentence, nameOf, standingChip } from '../words/compose-standing.js';
import { dayInWords } from '../words/day-in-words.js';
import { placeInWords } from '../words/lesion-in-words.js';
import { sentenceCase } from '../words/number-in-words.js';
import { planDay } from '../words/plan-day.js';
import type { HandoverOf } from './handover-of.js';
import { firstOf } from './left-out.js';

/** The lesions a page tells of: those not healed first, of these those a notice stands for, then the most telling standing. */
export function shownLesions({ work, level, leftOut }: HandoverOf): readonly LesionStanding[] {
  const called = new Set(
    work.notices.flatMap(({ standing, lesion }) => (standing && lesion ? [lesion] : [])),
  );
  const inOrder = work.standing.lesions.toSorted(
    (a, b) =>
      Number(!isOpenStanding(a)) - Number(!isOpenStanding(b)) ||
      Number(!called.has(a.lesion)) - Number(!called.has(b.lesion)) ||
      standingOrder.indexOf(a.standing) - standingOrder.indexOf(b.standing),
  );
  return firstOf(leftOut, 'lesions', inOrder, level.lesions);
}

/** Each lesion with its full name, its place and how it stands, in the words of the book. */
export function lesionsInWords(of: HandoverOf, shown: readonly LesionStanding[]): ActionBox {
  const { words, work, today } = of;
  const { animal } = work.record;
  const items = shown.map((lesion) => ({
    lead: `${lesion.lesion}: ${sentenceCase(nameOf(words, animal, lesion.lesion, lesion.code))}.`,
    text: `${standingChip(words, lesion)}. ${lesionSentence(words, animal, lesion)}`,
  }));
  const earlier = episodesOf(animal, today).filter(({ ended }) => ended !== undefined);
  const before = earlier.filter((episode) => episode.ended !== work.standing.episode.ended);
  const last = before.at(-1)?.ended;
  return {
    heading: words.say('handover.lesions.heading'),
    items: [
      ...(items.length > 0 ? items : [{ text: words.say('handover.lesions.none') }]),
      ...marksInWords(of),
      ...(last === undefined
        ? []
        : [
            {
              text: words.say('handover.lesions.earlier', {
                count: before.length,
                day: dayInWords(words, last),
              }),
            },
          ]),
    ],
  };
}

/** How far each growth mark has come down in this run of trouble: it tells slow horn from a gap that creeps up. */
function marksInWords({ words, work, level, leftOut, today }: HandoverOf): { text: string }[] {
  const { animal } = work.record;
  const read = Object.entries(animal.marks ?? {}).flatMap(([name, mark]) => {
    const readings = work.standing.episode.visits.flatMap((at) => {
      const { date, found } = animal.visits[at]!;
      const distance = found?.[name]?.distance;
      return distance === undefined ? [] : [{ date, distance }];
    });
    const [first, last] = [readings[0], readings.at(-1)];
    return first && last && first !== last ? [{ name, mark, first, last }] : [];
  });
  return firstOf(leftOut, 'marks', read, Math.max(0, level.lesions - 1)).map(
    ({ name, mark, first, last }) => ({
      text: words.say(`handover.lesions.${mark['groove-from'] ? 'groove' : 'mark'}`, {
        name,
        place: placeInWords(words, mark.foot, mark.claw),
        first: first.distance,
        from: planDay(words, first.date, today),
        last: last.distance,
        to: planDay(words, last.date, today),
      }),
    }),
  );
}
