import type { LesionGrowth } from '../growth/animal-growth.js';
import type { LesionStanding } from '../healing/standing.js';
import { blockTimeline } from '../healing/block-timeline.js';
import { drawingLegend } from '../figure/wall-strip-words.js';
import { feetIcon } from '../figure/feet-icon.js';
import type { AnimalSeals } from '../ledger/seals-of-animal.js';
import type { BookPictures } from '../picture/fit-pictures.js';
import type { CalendarDay } from '../record/calendar-day.js';
import { given } from '../record/given.js';
import type { FarmRecord, Practice } from '../record/practice.js';
import { type DueItem, isJob } from '../schedule/due/due-item.js';
import { isOpen, nextLift, plannedVisit } from '../schedule/next-lift.js';
import { isWithheld, type Side } from '../schedule/withheld.js';
import { gaitInShort, closingSentence } from '../words/compose-closing.js';
import { dueInWords, stopInWords, whenDue } from '../words/compose-due.js';
import { outSentence } from '../words/compose-regrowth.js';
import { caseChip, isOpenStanding, lesionSentence } from '../words/compose-standing.js';
import {
  dayInShort,
  lesionInWords,
  mm,
  paragraph,
  placeInWords,
  planDay,
  sentenceCase,
} from '../words/day-and-place.js';
import { type Words, told } from '../reference/words.js';
import { animalFigures } from './animal-figures.js';
import { identityLine } from './animal-record.js';
import type { OfBook, PlacedCase } from './animal-page-data.js';
import { composeCautions, leftBanner } from './cautions.js';
import { composeCowBack } from './cow-back.js';
import { roomOn } from './fit.js';
import {
  fitFront,
  fitOverleaf,
  type Front,
  type JobColumn,
  nothing,
  type Overleaf,
  overleafMm,
  type SheetJob,
  type SheetPictures,
} from './fit-sheet.js';
import { storyOf } from './narrative.js';
import { type BookFigure, listOf, type TextList } from './page-parts.js';
import { composePictures } from './picture-section.js';
import { vetLine, withheldCells } from './withheld-list.js';

/** One cow on one sheet: what is on its front, and its back. */
export type CowSheet = ReturnType<typeof composeCowSheet>;

/** What a sheet holds beside her record. */
export interface OnCowSheet {
  readonly pictures?: BookPictures;
  readonly seals?: AnimalSeals | undefined;
  /** The sheet is a file of its own: nothing of what holds for every cow is elsewhere in it. */
  readonly alone?: boolean;
}

/**
 * One cow's sheet: the answer first, who does what, the wall, and every visit on its back.
 *
 * Checked: tests/book/cow-sheet.test.ts
 */
export function composeCowSheet(
  words: Words,
  practice: Practice,
  record: FarmRecord,
  one: PlacedCase,
  today: CalendarDay,
  { pictures, seals, alone = false }: OnCowSheet = {},
) {
  const of: OfBook = { words, practice, farm: record, today };
  const { farm } = record;
  const { animal, narrative } = one.record;
  const standing = caseChip(words, one.standing);
  const stop = stopInWords(words, [one]);
  const left = leftBanner(words, one, today);
  const open = one.standing.lesions.filter(isOpenStanding);
  const { columns, moreJobs } = jobColumns(of, one);
  const front = {
    what: whatSheHas(words, one),
    identity: identityLine(words, animal),
    banners: [
      ...(stop ? [{ heading: stop.title, items: [{ text: stop.text }] }] : []),
      ...(left ? [left] : []),
    ],
    verdict: verdictOf(of, one),
    columns,
    ...given({
      withheld: isWithheld(one.withheld) && !one.left ? withheldLine(of, one) : undefined,
      pictures: sheetPictures(of, one, pictures),
      story: storyOf(words.say('cow.story'), narrative),
      cautions: listOf(words.say('cow.cautions'), composeCautions(words, farm, one, today)),
      ring: ringIf(of, one, alone),
    }),
  };
  const room = roomOn(farm.paper ?? 'A4');
  const legend = new Set(alone ? [] : drawingLegend(words));
  const drawn = new Map<number, readonly BookFigure[]>();
  const figuresOf = (tallestPx: number): readonly BookFigure[] => {
    const figures =
      drawn.get(tallestPx) ??
      animalFigures(words, farm, one, today, tallestPx).map((figure) => ({
        ...figure,
        notes: figure.notes.filter((note) => !legend.has(note)),
      }));
    drawn.set(tallestPx, figures);
    return figures;
  };
  const fitted = fitFront(front, figuresOf, room);
  let [overleaf, onScreen] = [nothing, nothing];
  const back = composeCowBack(of, one, {
    seals,
    room,
    more: moreJobs?.items ?? [],
    place: (mostMm) => {
      [overleaf, onScreen] = fitOverleaf(fitted.overleaf, mostMm, room);
      return { usedMm: overleafMm(overleaf, room), leftOut: leftOutInWords(words, onScreen) };
    },
  });
  const number = animal.animal;
  return {
    id: one.id,
    number,
    /** Four feet with hers marked: an SVG of our own. */
    feet: feetIcon(
      open.flatMap(({ lesion }) => animal.lesions[lesion] ?? []),
      words.say('cow.feet'),
    ),
    standing,
    /** At the head of both sides. */
    running: words.say('cow.running', {
      running: words.say('book.animal.running', { number, standing }),
      sheet: one.place + 1,
    }),
    /** Over the foot maps. */
    where: words.say('cow.where'),
    /** What a screen unfolds. */
    fold: words.say('book.animal.fold'),
    ...fitted,
    /** What found no room on the front, and what a screen alone shows since it found none on paper. */
    overleaf,
    onScreen,
    /** Jobs beyond those that a front lists. */
    ...given({ moreJobs }),
    back,
  };
}

/** Where what a sheet of paper has no room for is to be found. */
function leftOutInWords(words: Words, { pictures, figures, maps, story }: Overleaf): string | undefined {
  const what = words.commas([
    pictures && words.say('cow.left-out.pictures'),
    figures.length > 0 && words.say('cow.left-out.figures', { count: figures.length }),
    maps.length > 0 && words.say('cow.left-out.maps', { count: maps.length }),
    story && words.say('cow.left-out.story'),
  ]);
  return what === '' ? undefined : words.say('cow.left-out.line', { what });
}

/** Left hind, outer claw: white line disease (WL), and one more. */
function whatSheHas(words: Words, { record, standing }: PlacedCase): string {
  const leading = standing.leading ?? standing.lesions[0];
  const declared = leading && record.animal.lesions[leading.lesion];
  if (!leading || !declared) return words.say('cow.no-lesion');
  const count = standing.lesions
    .filter(isOpenStanding)
    .filter(({ lesion }) => lesion !== leading.lesion).length;
  return words.say(count === 0 ? 'cow.what' : 'cow.what-more', {
    place: sentenceCase(placeInWords(words, declared.foot, declared.claw)),
    lesion: lesionInWords(words, leading.code),
    count,
  });
}

/** The numbers first, then when it should be out or its status; last how she walks. */
function verdictOf({ words, today }: OfBook, one: PlacedCase): Front['verdict'] {
  const { standing, growth, closings, record } = one;
  const open = standing.lesions.filter(isOpenStanding);
  const about = open.length > 0 ? open : standing.lesions.slice(0, 1);
  const walk = standing.gait.last ? sentenceCase(`${gaitInShort(words, standing.gait)}.`) : '';
  if (about.length === 0) return [{ lead: '', text: walk }];
  return about.map((lesion, at) => {
    const line = growth.lesions.find((each) => each.lesion === lesion.lesion);
    const closing = closings.find((each) => each.lesion === lesion.lesion);
    const dates = [
      line && outSentence(words, line, today),
      closing && closingSentence(words, closing, today),
    ];
    const numbers = line && downInWords(words, lesion, line);
    const name = about.length > 1 ? words.say('cow.named', { name: lesion.lesion }) : '';
    const isSaid = numbers && lesion.standing === 'growing-down';
    return {
      lead: paragraph(name, numbers),
      text: paragraph(
        isSaid ? '' : lesionSentence(words, record.animal, lesion),
        ...(standing.closed ? [] : dates),
        at === about.length - 1 ? walk : '',
      ),
    };
  });
}

/** How much of the wall is between the coronet and the gap; undefined where no length is known. */
function downInWords(words: Words, { standing }: LesionStanding, line: LesionGrowth): string | undefined {
  const last = line.readings.findLast(
    ({ topMm, kind, unused }) => topMm !== undefined && kind !== 'not-reached' && !unused,
  );
  if (last?.topMm === undefined || standing === 'healed') return undefined;
  // Only where horn comes down as it should has it grown down.
  return words.say(standing === 'growing-down' ? 'cow.down' : 'cow.top', {
    top: mm(last.topMm),
    wall: mm(line.wall.mm),
    day: dayInShort(words, last.date),
  });
}

function withheldLine({ words, today }: OfBook, one: PlacedCase): NonNullable<Front['withheld']> {
  const cells = withheldCells(words, one, today);
  const line = (side: Side): string => {
    const { text, note } = cells[side];
    return words.say('cow.withheld-side', {
      side: words.say(`jobs.withheld.${side}`),
      text: paragraph(note ? `${text}.` : text, note),
    });
  };
  return { heading: words.say('cow.withheld'), milk: line('milk'), meat: line('meat') };
}

/** So many jobs of one person are on a front. */
const jobsOnFront = 6;

/** Who does what, by day; in the vet's column why it is the vet's and whether the vet was asked. */
function jobColumns({ words, today }: OfBook, one: PlacedCase) {
  const due = one.due.filter((item) => isOpen(item) && isJob(item));
  const vet = vetLine(words, one, today);
  const overleaf: string[] = [];
  const columns = (['farm', 'trimmer', 'vet'] as const).map((who): JobColumn => {
    const items = due
      .filter((item) => item.who === who)
      .toSorted((a, b) => (a.by < b.by ? -1 : a.by > b.by ? 1 : 0));
    const all = jobsOf(words, one, items, today);
    if (who === 'vet' && vet)
      all.unshift({
        lead: sentenceCase(vet.when),
        late: vet.urgency !== 'notice',
        text: `${vet.why}. ${sentenceCase(vet.asked)}`,
      });
    const heading = words.say(`cow.who.${who}`);
    const rest = all.slice(jobsOnFront);
    for (const { lead, text } of rest)
      overleaf.push(words.say('cow.job-of', { who: heading, lead, job: text }));
    return {
      heading,
      nothing: words.say(`cow.nothing.${who}`),
      jobs: all.slice(0, jobsOnFront),
      ...(rest.length > 0 ? { more: words.say('cow.more-jobs', { count: rest.length }) } : {}),
    };
  });
  return { columns, moreJobs: listOf(words.say('cow.more-jobs-heading'), overleaf) };
}

/** One line a job: one that is asked for several days is at the first, with the others. */
function jobsOf(words: Words, one: PlacedCase, items: readonly DueItem[], today: CalendarDay): SheetJob[] {
  const byText = new Map<string, [DueItem, ...DueItem[]]>();
  for (const item of items) {
    const { what } = dueInWords(words, one.record.animal, item);
    const same = byText.get(what);
    if (same) same.push(item);
    else byText.set(what, [item]);
  }
  return [...byText].map(([job, [first, ...again]]) => ({
    lead: sentenceCase(whenDue(words, first, today, planDay(words, first.by, today))),
    late: first.standing === 'overdue',
    text:
      again.length === 0
        ? job
        : words.say('cow.again', { job, days: words.commas(again.map(({ by }) => dayInShort(words, by))) }),
  }));
}

/** When the farm rings before the next lift, and whom: what anybody may come to see on any cow is on the first sheet's back. */
function ringIf(
  { words, practice: { business }, farm: { farm }, today }: OfBook,
  one: PlacedCase,
  alone: boolean,
): TextList | undefined {
  if (one.standing.closed) return undefined;
  const day = nextLift(farm, one, today) ?? plannedVisit(farm, today);
  const isBlocked = blockTimeline(one.record.animal, today).on.length > 0;
  const call = (key: string, name: string | undefined, phone: string | undefined) =>
    name && phone ? [words.say(key, { name: told(name), phone: told(phone) })] : [];
  return {
    heading:
      day === undefined || day <= today
        ? words.say('cow.ring.heading-none')
        : words.say('cow.ring.heading', { day: planDay(words, day, today) }),
    items: [
      words.say(isBlocked ? 'cow.ring.if-block' : 'cow.ring.if'),
      ...call('cow.ring.trimmer', business.trimmer ?? business.business, business.phone),
      words.say(alone ? 'cow.ring.same-day-alone' : 'cow.ring.same-day'),
      ...call('cow.ring.vet', farm.vet?.name ?? farm.vet?.practice, farm.vet?.phone),
    ],
  };
}

/** The last day on which a top was found further up, or an ulcer wider; undefined where none was. */
function turnedOn({ growth, closings }: PlacedCase): CalendarDay | undefined {
  return [
    ...growth.lesions.flatMap(({ readings }) => readings.filter(({ kind }) => kind === 'ran-up')),
    ...closings.flatMap(({ readings }) => readings.filter(({ kind }) => kind === 'opening-up')),
  ]
    .map(({ date }) => date)
    .sort()
    .at(-1);
}

/** Of the place with most days, the one where the lesion that leads is: first, turning point, latest. */
function sheetPictures(
  { words, today }: OfBook,
  one: PlacedCase,
  pictures: BookPictures | undefined,
): SheetPictures | undefined {
  const section = composePictures(words, one.id, one.record.animal, today, {
    pictures,
    turned: turnedOn(one),
  });
  const [first, ...others] = section?.strips.toSorted((a, b) => b.large.length - a.large.length) ?? [];
  if (!section || !first) return undefined;
  const beside = first.large.flatMap((day) =>
    day.shots.length > 1 ? [{ ...day, shots: day.shots.slice(0, -1) }] : [],
  );
  const rest = [...(beside.length > 0 || first.more ? [{ ...first, large: beside }] : []), ...others];
  const count = rest.reduce((sum, { large, more }) => sum + large.length + (more?.days.length ?? 0), 0);
  return {
    heading: first.heading,
    height: 'low',
    days: first.large.map((day) => ({ ...day, shots: day.shots.slice(-1) })),
    ...(count === 0
      ? {}
      : { more: { summary: words.say('picture.more', { count }), section: { ...section, strips: rest } } }),
  };
}
