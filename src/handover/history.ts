import { type Cell, type DataTable, dataTable, heads } from '../book/page-parts.js';
import { given } from '../record/given.js';
import { isLeftDown } from '../record/lifting.js';
import type { GaitScore, LesionStanding } from '../healing/standing.js';
import type { Visit, Found } from '../record/visit.js';
import { lameInWords } from '../words/compose-closing.js';
import { placeInWords, mm } from '../words/day-and-place.js';
import type { HandoverOf } from './handover-page.js';

/** Kinds of reading that say no more than that it was read. */
const plain: ReadonlySet<string> = new Set(['first', 'grew', 'as-expected']);

/** What a reading was taken for, where it is more than a length that came down: ran up, held, opening up. */
function readingKind(
  { say, work }: HandoverOf,
  lesion: string,
  visit: number,
  found: Found,
): string | undefined {
  const gap = work.growth.lesions
    .find((one) => one.lesion === lesion)
    ?.readings.find((reading) => reading.visit === visit);
  const width = work.closings
    .find((one) => one.lesion === lesion)
    ?.readings.find((reading) => reading.visit === visit);
  if (gap?.kind === 'ran-up' && gap.ranUpMm !== undefined)
    return say('reading.ran-up-mm', { mm: Math.round(gap.ranUpMm) });
  const kind = gap?.kind ?? width?.kind;
  if (kind !== undefined && !plain.has(kind)) return say(`reading.${kind}`);
  return found['ran-up'] === true ? say('reading.ran-up') : undefined;
}

/** What was measured of a lesion at one visit, in few words: its state, its lengths, its signs. */
function measuredInShort({ words, say }: HandoverOf, found: Found): string {
  const { top, wall, length, width, depth } = found;
  const said = (key: string, value: number | undefined) =>
    value === undefined ? undefined : say(`found.${key}`, { [key]: value });
  const both = length !== undefined && width !== undefined;
  return words
    .semicolons([
      found.stage ?? (found.state && words.say(`vocabulary.state.${found.state}`)),
      top !== undefined && wall !== undefined ? say('found.top-of-wall', { top, wall }) : said('top', top),
      ...(both ? [say('found.across', { length, width })] : [said('width', width), said('length', length)]),
      said('depth', depth === undefined ? undefined : mm(depth)),
      found.infected === true && say('found.infected'),
      found.joined !== undefined && say('found.joined', { name: found.joined }),
      ...(found.signs ?? []).map((sign) => words.say(`vocabulary.sign.${sign}`)),
    ])
    .replaceAll('; ', ', ');
}

/**
 * Her visits of this lameness episode, a row each: what was measured of each lesion, her walk off the block and on it in
 * columns of their own, and what was done with blocks and wraps.
 *
 * Where there are more than there is room for: the first, the last ones at which a gap ran up or an ulcer opened up, and
 * the latest.
 */
export function visitHistory(of: HandoverOf, shown: readonly LesionStanding[]): DataTable | undefined {
  const { words, say, work, leftOut } = of;
  const telling = work.standing.episode.visits.filter((at) => isTelling(of, shown, at));
  if (telling.length === 0) return undefined;
  const kept = keptVisits(of, shown, telling);
  if (kept.length < telling.length) leftOut.set('visits', telling.length - kept.length);
  const scale = work.standing.gait.scores.at(-1)?.scale;
  return dataTable(
    'history',
    say('history.caption', {
      scale: scale ? words.say(`vocabulary.gait-scale.${scale}`) : say('history.no-scale'),
    }),
    [
      say('history.day'),
      ...shown.map(({ lesion }) => {
        const { foot, claw } = work.record.animal.lesions[lesion]!;
        return say('history.lesion', { lesion, place: placeInWords(words, foot, claw) });
      }),
      ...heads(words, 'handover.history', 'off', 'on', 'work'),
    ],
    kept.map((at) => cellsOf(of, shown, at)),
  );
}

/** A visit that measured a shown lesion, scored her walk, or touched a block or a wrap. */
function isTelling({ work }: HandoverOf, shown: readonly LesionStanding[], at: number): boolean {
  const { gait, found, blocks = [], wraps = [], kind } = work.record.animal.visits[at]!;
  if (kind === 'missed') return false;
  const measured = shown.some(({ lesion }) => found?.[lesion] !== undefined);
  return gait !== undefined || measured || blocks.length + wraps.length > 0;
}

function keptVisits(of: HandoverOf, shown: readonly LesionStanding[], telling: readonly number[]): number[] {
  const { animal, level } = of;
  if (telling.length <= level.visits) return [...telling];
  const wentBack = telling.filter((at) =>
    shown.some(({ lesion }) => {
      const found = animal.visits[at]?.found?.[lesion];
      return found && readingKind(of, lesion, at, found) !== undefined;
    }),
  );
  const first = level.visits > 1 ? telling.slice(0, 1) : [];
  const kept = new Set([...first, ...wentBack.toReversed().slice(0, level.readings)]);
  for (const at of telling.toReversed()) {
    if (kept.size >= level.visits) break;
    kept.add(at);
  }
  return [...kept].sort((a, b) => a - b);
}

function cellsOf(of: HandoverOf, shown: readonly LesionStanding[], at: number): (string | Cell)[] {
  const { words, say, work, day } = of;
  const visit = work.record.animal.visits[at]!;
  const walk = work.standing.gait.scores.find((one) => one.visit === at);
  const none = say('history.not-seen');
  const score = (block: GaitScore['block']): string => {
    if (walk?.block !== block) return none;
    return walk.lame
      ? say('history.lame', { score: walk.score, lame: lameInWords(words, walk) })
      : `${walk.score}`;
  };
  const done = words.semicolons([
    walk?.block === 'unclear' && say('history.unclear', { score: walk.score }),
    ...fixtureEvents(of, visit),
  ]);
  return [
    day(visit.date),
    ...shown.map(({ lesion }) => lesionCell(of, lesion, at)),
    score('off'),
    score('on'),
    done || none,
  ];
}

function lesionCell(of: HandoverOf, lesion: string, at: number): Cell {
  const { animal, say, cut } = of;
  const visit = animal.visits[at]!;
  const found = visit.found?.[lesion];
  const foot = animal.lesions[lesion]?.foot;
  const none = { text: say('history.not-seen') };
  if (!found || !foot) return none;
  const isSeen = found.state !== undefined || !isLeftDown(visit, foot, found);
  const measured = isSeen ? cut(measuredInShort(of, found)) : '';
  const kind = readingKind(of, lesion, at, found);
  if (kind === undefined) return measured === '' ? none : { text: measured };
  return { text: kind, strong: true, ...given({ note: measured || undefined }) };
}

function fixtureEvents({ words, say }: HandoverOf, { blocks = [], wraps = [] }: Visit): string[] {
  const what = (event: string) => ({ what: words.say(`vocabulary.event.${event}`) });
  return [
    ...blocks.map(({ event }) => say('history.block', what(event))),
    ...wraps.map(({ event }) => say('history.wrap', what(event))),
  ];
}
