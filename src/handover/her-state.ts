import { calvingsInShort } from '../book/animal-record.js';
import { type Fact, factsOf } from '../book/page-parts.js';
import { blockTimeline } from '../healing/block-timeline.js';
import type { GaitScore } from '../healing/standing.js';
import { wrapTimeline } from '../healing/fixture-span.js';
import { daysBetween } from '../record/calendar-day.js';
import type { Visit } from '../record/visit.js';
import type { Claw, Foot } from '../record/words.js';
import { inMilkOn } from '../schedule/calving.js';
import { type Side, sides } from '../schedule/withheld.js';
import { withheldInWords } from '../words/compose-withheld.js';
import { placeInWords } from '../words/day-and-place.js';
import type { HandoverOf } from './handover-page.js';

/** So many scores of each kind: enough to see which way it goes. */
const scoresShown = 3;

/** Her walk off the block and on it apart, lame since when, blocks, wraps, pain relief, withdrawal, calving, condition, weight. */
export function herState(of: HandoverOf) {
  const { words, animal, today } = of;
  const say = (key: string, values = {}) => words.say(`handover.facts.${key}`, values);
  const last = (has: (visit: Visit) => boolean) =>
    animal.visits.findLast((visit) => visit.date <= today && has(visit));
  const relief = last((visit) => visit['pain-relief'] !== undefined);
  const [milk, meat] = sides.map((side) => withheld(of, side));
  const facts = factsOf(words, 'handover.facts', {
    since: lameSince(of),
    block: blocks(of),
    wrap: words.semicolons(
      wrapTimeline(animal, today)
        .filter(({ end }) => !end)
        .map((span) => fixture(of, 'wrap-on', span)),
    ),
    pain:
      relief?.['pain-relief'] &&
      say('at', {
        what: words.say(`vocabulary.pain-relief.${relief['pain-relief']}`),
        day: of.day(relief.date),
      }),
    milk,
    meat,
    calving: calving(of),
    condition: condition(
      of,
      last(({ condition: scored }) => scored !== undefined),
      last(({ weight }) => weight !== undefined),
    ),
  });
  /** On the page only where no drawing shows them. */
  const walks = (['off', 'on'] as const).map((block): Fact => ({
    label: say(block),
    value: lastScores(of, block) || say('never'),
  }));
  return { heading: say('heading'), walks, facts };
}

function lameSince({ words, say, work, today, day, name }: HandoverOf): string | undefined {
  const { lameSince: since, toldBy } = work.standing.episode;
  return (
    since &&
    words.semicolons([
      say('facts.lame-since', { day: day(since) }),
      words.say('money.days', { count: daysBetween(since, today) }),
      toldBy && say('facts.told-by', { who: name(toldBy) }),
    ])
  );
}

function lastScores({ words, say, work, day }: HandoverOf, block: GaitScore['block']): string {
  const scores = work.standing.gait.scores.filter((score) => score.block === block).slice(-scoresShown);
  return words.commas(scores.map(({ score, date }) => say('facts.score', { score, day: day(date) })));
}

function fixture(
  { words, say, day }: HandoverOf,
  key: 'block-on' | 'wrap-on',
  { foot, claw, from }: { readonly foot: Foot; readonly claw?: Claw; readonly from: string },
): string {
  return say(`facts.${key}`, { place: placeInWords(words, foot, claw), day: day(from) });
}

function blocks(of: HandoverOf): string {
  const { words, say, animal, today, day } = of;
  const { spans, on, daysByFoot } = blockTimeline(animal, today);
  const carried = spans.findLast(({ end }) => end?.carryingClaw !== undefined)?.end;
  return words.semicolons([
    ...(on.length > 0 ? on.map((span) => fixture(of, 'block-on', span)) : [say('facts.block-off')]),
    ...daysByFoot.map(({ foot, atLeast, certain }) =>
      say(`facts.block-days${certain ? '' : '-least'}`, {
        foot: placeInWords(words, foot),
        days: words.say('money.days', { count: atLeast }),
      }),
    ),
    carried?.carryingClaw &&
      say('facts.at', {
        what: words.say(`vocabulary.carrying-claw.${carried.carryingClaw}`),
        day: day(carried.by),
      }),
  ]);
}

/** Milk or meat of all she was given; of each product only its period is among the treatments. */
function withheld({ words, work, today, cut }: HandoverOf, side: Side): string | undefined {
  const { text, note, isHeld } = withheldInWords(words, work.withheld[side], side, today);
  return isHeld ? words.semicolons([text, note && cut(note)]) : undefined;
}

function calving({ words, say, animal, today, day }: HandoverOf): string {
  const [last, dried] = [animal.calvings, animal['dried-off']].map((days) =>
    days?.filter((of) => of <= today).at(-1),
  );
  const due = animal['due-to-calve'];
  return words.semicolons([
    calvingsInShort(words, animal),
    last && say('facts.days-ago', { count: daysBetween(last, today) }),
    dried && inMilkOn(animal, today) === 'dry' && say('facts.dry', { day: day(dried) }),
    due && say('facts.due', { day: day(due) }),
  ]);
}

function condition(
  { words, say, farm: { farm }, day }: HandoverOf,
  scored: Visit | undefined,
  weighed: Visit | undefined,
): string {
  const scale = farm['condition-scale'];
  return words.semicolons([
    scored &&
      say('facts.condition-at', {
        value: scored.condition ?? '',
        scale: words.say(scale ? `vocabulary.condition-scale.${scale}` : 'book.log.no-scale'),
        day: day(scored.date),
      }),
    weighed && say('facts.weight-at', { value: weighed.weight ?? '', day: day(weighed.date) }),
  ]);
}
