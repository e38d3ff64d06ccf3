import type { Cell, DataTable } from '../book/page-parts.js';
import { isLeftDown } from '../record/lifting.js';
import type { LesionStanding } from '../healing/standing.js';
import type { Visit, Found } from '../record/visit.js';
import { lameInWords } from '../words/compose-closing.js';
import { placeInWords, planDay, mm } from '../words/day-and-place.js';
import { type HandoverOf, cut } from './handover-page.js';
import type { CaseWork } from '../schedule/case-work.js';
import type { Words } from '../reference/words.js';

/** Kinds of reading that say no more than that it was read. */
const plain: ReadonlySet<string> = new Set(['first', 'grew', 'as-expected']);

/** What a reading was taken for, where it is more than a length that came down: ran up, held, opening up. */
function readingKind(
  words: Words,
  { growth, closings }: Pick<CaseWork, 'growth' | 'closings'>,
  lesion: string,
  visit: number,
  found: Found,
): string | undefined {
  const gap = growth.lesions
    .find((one) => one.lesion === lesion)
    ?.readings.find((reading) => reading.visit === visit);
  const width = closings
    .find((one) => one.lesion === lesion)
    ?.readings.find((reading) => reading.visit === visit);
  if (gap?.kind === 'ran-up' && gap.ranUpMm !== undefined)
    return words.say('handover.reading.ran-up-mm', { mm: Math.round(gap.ranUpMm) });
  const kind = gap?.kind ?? width?.kind;
  if (kind !== undefined && !plain.has(kind)) return words.say(`handover.reading.${kind}`);
  return found['ran-up'] === true ? words.say('handover.reading.ran-up') : undefined;
}

/** What was measured of a lesion at one visit, in few words: its state, its lengths, its signs. */
function measuredInShort(words: Words, found: Found): string {
  const say = (key: string, values: Readonly<Record<string, number>>) =>
    words.say(`handover.found.${key}`, values);
  const { top, wall, length, width, depth } = found;
  return words
    .semicolons([
      found.stage ?? (found.state && words.say(`vocabulary.state.${found.state}`)),
      top === undefined
        ? undefined
        : wall === undefined
          ? say('top', { top })
          : say('top-of-wall', { top, wall }),
      length !== undefined && width !== undefined
        ? say('across', { length, width })
        : words.semicolons([
            width === undefined ? undefined : say('width', { width }),
            length === undefined ? undefined : say('length', { length }),
          ]),
      depth === undefined ? undefined : say('depth', { depth: mm(depth) }),
      found.infected === true && words.say('handover.found.infected'),
      found.joined !== undefined && words.say('handover.found.joined', { name: found.joined }),
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
  const { words, work, leftOut } = of;
  const telling = work.standing.episode.visits.filter((at) => isTelling(of, shown, at));
  if (telling.length === 0) return undefined;
  const kept = keptVisits(of, shown, telling);
  if (kept.length < telling.length) leftOut.counts.set('visits', telling.length - kept.length);
  const scale = work.standing.gait.scores.at(-1)?.scale;
  return {
    id: 'history',
    caption: words.say('handover.history.caption', {
      scale: scale ? words.say(`vocabulary.gait-scale.${scale}`) : words.say('handover.history.no-scale'),
    }),
    columns: [
      { head: words.say('handover.history.day') },
      ...shown.map(({ lesion }) => {
        const { foot, claw } = work.record.animal.lesions[lesion]!;
        return {
          head: words.say('handover.history.lesion', { lesion, place: placeInWords(words, foot, claw) }),
        };
      }),
      { head: words.say('handover.history.off') },
      { head: words.say('handover.history.on') },
      { head: words.say('handover.history.work') },
    ],
    rows: kept.map((at) => ({ cells: cellsOf(of, shown, at) })),
  };
}

/** A visit that measured a shown lesion, scored her walk, or touched a block or a wrap. */
function isTelling({ work }: HandoverOf, shown: readonly LesionStanding[], at: number): boolean {
  const { gait, found, blocks = [], wraps = [], kind } = work.record.animal.visits[at]!;
  if (kind === 'missed') return false;
  const measured = shown.some(({ lesion }) => found?.[lesion] !== undefined);
  return gait !== undefined || measured || blocks.length + wraps.length > 0;
}

function keptVisits(
  { words, work, level }: HandoverOf,
  shown: readonly LesionStanding[],
  telling: readonly number[],
): number[] {
  if (telling.length <= level.visits) return [...telling];
  const wentBack = telling.filter((at) =>
    shown.some(({ lesion }) => {
      const found = work.record.animal.visits[at]?.found?.[lesion];
      const kind = found && readingKind(words, work, lesion, at, found);
      return kind !== undefined;
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

function cellsOf(of: HandoverOf, shown: readonly LesionStanding[], at: number): Cell[] {
  const { words, work, today } = of;
  const visit = work.record.animal.visits[at]!;
  const score = work.standing.gait.scores.find((one) => one.visit === at);
  const walk = score && (score.lame ? words.say('handover.history.lame', { score: score.score, lame: lameInWords(words, score) }) : `${score.score}`); // prettier-ignore
  const none = words.say('handover.history.not-seen');
  return [
    { text: planDay(words, visit.date, today) },
    ...shown.map(({ lesion }): Cell => lesionCell(of, lesion, at)),
    { text: score?.block === 'off' ? walk! : none },
    { text: score?.block === 'on' ? walk! : none },
    {
      text:
        words.semicolons([
          score?.block === 'unclear' && words.say('handover.history.unclear', { score: score.score }),
          ...fixtureEvents(of, visit),
        ]) || none,
    },
  ];
}

function lesionCell({ words, work, level, leftOut }: HandoverOf, lesion: string, at: number): Cell {
  const { animal } = work.record;
  const visit = animal.visits[at]!;
  const found = visit.found?.[lesion];
  const foot = animal.lesions[lesion]?.foot;
  const none = { text: words.say('handover.history.not-seen') };
  if (!found || !foot) return none;
  const measured =
    isLeftDown(visit, foot, found) && found.state === undefined
      ? ''
      : cut(leftOut, measuredInShort(words, found), level.characters);
  const kind = readingKind(words, work, lesion, at, found);
  if (kind === undefined) return measured === '' ? none : { text: measured };
  return { text: kind, strong: true, ...(measured === '' ? {} : { note: measured }) };
}

function fixtureEvents({ words }: HandoverOf, { blocks = [], wraps = [] }: Visit): string[] {
  const event = (name: string) => words.say(`vocabulary.event.${name}`);
  return [
    ...blocks.map((block) => words.say('handover.history.block', { what: event(block.event) })),
    ...wraps.map((wrap) => words.say('handover.history.wrap', { what: event(wrap.event) })),
  ];
}
