import { told } from '../reference/words.js';
import { calvingsInShort } from '../book/animal-record.js';
import { fact } from '../book/animal-page-data.js';
import type { Fact } from '../book/page-parts.js';
import { blockTimeline } from '../healing/block-timeline.js';
import type { GaitScore } from '../healing/standing.js';
import { wrapTimeline } from '../healing/fixture-span.js';
import { daysBetween } from '../record/calendar-day.js';
import type { Visit } from '../record/visit.js';
import { inMilkOn } from '../schedule/calving.js';
import { sides } from '../schedule/withheld.js';
import { withheldInWords } from '../words/compose-withheld.js';
import { placeInWords, planDay } from '../words/day-and-place.js';
import { type HandoverOf, type HandoverPage, cut, cutName } from './handover-page.js';

/** So many scores of each kind: enough to see which way it goes. */
const scoresShown = 3;

/** Her walk off the block and on it apart, lame since when, blocks, wraps, pain relief, withdrawal, calving, condition, weight. */
export function herState(of: HandoverOf): HandoverPage['state'] {
  const { words } = of;
  return {
    heading: words.say('handover.facts.heading'),
    walks: walks(of),
    facts: [
      ...lameSince(of),
      ...fixtures(of),
      ...painRelief(of),
      ...withheld(of),
      ...calving(of),
      ...condition(of),
    ],
  };
}

function lameSince({ words, work, today, leftOut }: HandoverOf): Fact[] {
  const { lameSince: since, toldBy } = work.standing.episode;
  return fact(
    words,
    'handover.facts.since',
    since &&
      words.semicolons([
        words.say('handover.facts.lame-since', { day: planDay(words, since, today) }),
        words.say('money.days', { count: daysBetween(since, today) }),
        toldBy && words.say('handover.facts.told-by', { who: told(cutName(leftOut, toldBy)) }),
      ]),
  );
}

function walks({ words, work, today }: HandoverOf): Fact[] {
  const last = (block: GaitScore['block']) =>
    words.commas(
      work.standing.gait.scores
        .filter((score) => score.block === block)
        .slice(-scoresShown)
        .map(({ score, date }) =>
          words.say('handover.facts.score', { score, day: planDay(words, date, today) }),
        ),
    );
  return (['off', 'on'] as const).map((block) => ({
    label: words.say(`handover.facts.${block}`),
    value: last(block) || words.say('handover.facts.never'),
  }));
}

function fixtures({ words, work, today }: HandoverOf): Fact[] {
  const { animal } = work.record;
  const { spans, on, daysByFoot } = blockTimeline(animal, today);
  const place = (span: { foot: (typeof on)[number]['foot']; claw?: (typeof on)[number]['claw']; from: string }, key: string) =>
    words.say(key, { place: placeInWords(words, span.foot, span.claw), day: planDay(words, span.from, today) }); // prettier-ignore
  const carried = spans.findLast(({ end }) => end?.carryingClaw !== undefined)?.end;
  const wraps = wrapTimeline(animal, today).filter(({ end }) => !end);
  return [
    ...fact(
      words,
      'handover.facts.block',
      words.semicolons([
        ...(on.length > 0
          ? on.map((span) => place(span, 'handover.facts.block-on'))
          : [words.say('handover.facts.block-off')]),
        ...daysByFoot.map(({ foot, atLeast, certain }) =>
          words.say(`handover.facts.block-days${certain ? '' : '-least'}`, {
            foot: placeInWords(words, foot),
            days: words.say('money.days', { count: atLeast }),
          }),
        ),
        carried?.carryingClaw &&
          words.say('handover.facts.at', {
            what: words.say(`vocabulary.carrying-claw.${carried.carryingClaw}`),
            day: planDay(words, carried.by, today),
          }),
      ]),
    ),
    ...fact(
      words,
      'handover.facts.wrap',
      words.semicolons(wraps.map((span) => place(span, 'handover.facts.wrap-on'))),
    ),
  ];
}

function painRelief({ words, work, today }: HandoverOf): Fact[] {
  const visit = lastWith(work.record.animal.visits, today, (one) => one['pain-relief'] !== undefined);
  return fact(
    words,
    'handover.facts.pain',
    visit?.['pain-relief'] &&
      words.say('handover.facts.at', {
        what: words.say(`vocabulary.pain-relief.${visit['pain-relief']}`),
        day: planDay(words, visit.date, today),
      }),
  );
}

/** Milk and meat of all she was given; of each product only its period stands among the treatments. */
function withheld({ words, work, today, level, leftOut }: HandoverOf): Fact[] {
  return sides.flatMap((side) => {
    const { text, note, isHeld } = withheldInWords(words, work.withheld[side], side, today);
    return isHeld
      ? [
          {
            label: words.say(`handover.facts.${side}`),
            value: words.semicolons([text, note && cut(leftOut, note, level.characters)]),
          },
        ]
      : [];
  });
}

function calving({ words, work, today }: HandoverOf): Fact[] {
  const { animal } = work.record;
  const last = animal.calvings?.filter((day) => day <= today).at(-1);
  const dried = animal['dried-off']?.filter((day) => day <= today).at(-1);
  const due = animal['due-to-calve'];
  return fact(
    words,
    'handover.facts.calving',
    words.semicolons([
      calvingsInShort(words, animal),
      last && words.say('handover.facts.days-ago', { count: daysBetween(last, today) }),
      dried !== undefined &&
        inMilkOn(animal, today) === 'dry' &&
        words.say('handover.facts.dry', { day: planDay(words, dried, today) }),
      due && words.say('handover.facts.due', { day: planDay(words, due, today) }),
    ]),
  );
}

function condition({ words, farm: { farm }, work, today }: HandoverOf): Fact[] {
  const { visits } = work.record.animal;
  const scored = lastWith(visits, today, (one) => one.condition !== undefined);
  const weighed = lastWith(visits, today, (one) => one.weight !== undefined);
  return fact(
    words,
    'handover.facts.condition',
    words.semicolons([
      scored &&
        words.say('handover.facts.condition-at', {
          value: scored.condition ?? '',
          scale: farm['condition-scale']
            ? words.say(`vocabulary.condition-scale.${farm['condition-scale']}`)
            : words.say('book.log.no-scale'),
          day: planDay(words, scored.date, today),
        }),
      weighed &&
        words.say('handover.facts.weight-at', {
          value: weighed.weight ?? '',
          day: planDay(words, weighed.date, today),
        }),
    ]),
  );
}

function lastWith(
  visits: readonly Visit[],
  today: string,
  has: (visit: Visit) => boolean,
): Visit | undefined {
  return visits.findLast((visit) => visit.date <= today && has(visit));
}
