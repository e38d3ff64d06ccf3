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
import { isWithheld } from '../schedule/withheld.js';
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
import type { ActionBox, PictureDay, PictureSection, PlacedCase } from './animal-page-data.js';
import { composeCautions, leftBanner } from './cautions.js';
import { type CowBack, composeCowBack } from './cow-back.js';
import { drawnMm, figureMm, headingMm, heightOf, highest, roomOn, type Room, stacked } from './fit.js';
import { renderNarrative } from './narrative.js';
import type { BookFigure, TextList } from './page-parts.js';
import { composePictures } from './picture-section.js';
import { vetLine, withheldCells } from './withheld-list.js';

/** One thing to be done, with a box to tick. */
export interface SheetJob {
  /** When, or that it is late. */
  readonly lead: string;
  readonly late: boolean;
  readonly text: string;
}

export interface JobColumn {
  readonly heading: string;
  readonly jobs: readonly SheetJob[];
  /** How many more stand overleaf. */
  readonly more?: string;
  /** Where nothing is asked. */
  readonly nothing: string;
}

/** Up to three days of one place: first, turning point, latest; the rest folded on a screen. */
export interface SheetPictures {
  readonly heading: string;
  readonly days: readonly PictureDay[];
  /** 43.5 or 29 mm. */
  readonly height: keyof typeof pictureMm;
  readonly more?: { readonly summary: string; readonly section: PictureSection };
}

/** One cow on one sheet: what stands on its front, and its back. */
export interface CowSheet {
  readonly id: string;
  readonly number: string;
  /** Foot, claw and lesion of what leads, and how many others are open. */
  readonly what: string;
  readonly identity: string;
  /** Four feet with hers marked: an SVG of our own. */
  readonly feet: string;
  readonly standing: string;
  /** At the head of both sides. */
  readonly running: string;
  /** Before all else; never left out. */
  readonly banners: readonly ActionBox[];
  /** Two lines, the numbers first. */
  readonly verdict: readonly { readonly lead: string; readonly text: string }[];
  readonly withheld?: { readonly heading: string; readonly milk: string; readonly meat: string };
  readonly columns: readonly JobColumn[];
  readonly pictures?: SheetPictures;
  readonly figures: readonly BookFigure[];
  readonly where: string;
  readonly maps: readonly BookFigure[];
  readonly story?: Story;
  readonly ring?: TextList;
  /** What bears on her alone: calving near, a block in doubt, not fit to travel. */
  readonly cautions?: TextList;
  /** What found no room on the front, and what a screen alone shows since it found none on paper. */
  readonly overleaf: Overleaf;
  readonly onScreen: Overleaf;
  /** Jobs beyond those that a front lists. */
  readonly moreJobs?: TextList;
  readonly back: CowBack;
  /** What a screen unfolds. */
  readonly fold: string;
}

interface Overleaf {
  readonly pictures?: SheetPictures;
  readonly figures: readonly BookFigure[];
  readonly maps: readonly BookFigure[];
  readonly story?: Story;
}

/** Rendered Markdown, never the user's own HTML. */
interface Story {
  readonly heading: string;
  readonly html: string;
}

/** What a sheet holds beside her record. */
export interface OnCowSheet {
  readonly pictures?: BookPictures;
  readonly seals?: AnimalSeals | undefined;
  /** The sheet is a file of its own: nothing of what holds for every cow stands elsewhere in it. */
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
  farmRecord: FarmRecord,
  one: PlacedCase,
  today: CalendarDay,
  { pictures, seals, alone = false }: OnCowSheet = {},
): CowSheet {
  const { farm } = farmRecord;
  const { animal, narrative } = one.record;
  const standing = caseChip(words, one.standing);
  const stop = stopInWords(words, [one]);
  const left = leftBanner(words, one, today);
  const open = one.standing.lesions.filter(isOpenStanding);
  const { columns, moreJobs } = jobColumns(words, one, today);
  const cautions = composeCautions(words, farm, one, today);
  const front = {
    what: whatSheHas(words, one),
    identity: identityLine(words, animal),
    banners: [
      ...(stop ? [{ heading: stop.title, items: [{ text: stop.text }] }] : []),
      ...(left ? [left] : []),
    ],
    verdict: verdictOf(words, one, today),
    ...(isWithheld(one.withheld) && !one.left ? { withheld: withheldLine(words, one, today) } : {}),
    columns,
    ...given({ pictures: sheetPictures(words, one, today, pictures) }),
    ...(narrative.trim() === ''
      ? {}
      : { story: { heading: words.say('cow.story'), html: renderNarrative(narrative, 4) } }),
    ...(cautions.length > 0 ? { cautions: { heading: words.say('cow.cautions'), items: cautions } } : {}),
    ...given({ ring: ringIf(words, practice, farmRecord, one, today, alone) }),
  };
  const room = roomOn(farm.paper ?? 'A4');
  const legend = new Set(alone ? [] : drawingLegend(words));
  const drawn = new Map<number, readonly BookFigure[]>();
  const figuresOf = (tallestPx: number): readonly BookFigure[] => {
    const known =
      drawn.get(tallestPx) ??
      animalFigures(words, farm, one, today, tallestPx).map((figure) => ({
        ...figure,
        notes: figure.notes.filter((note) => !legend.has(note)),
      }));
    drawn.set(tallestPx, known);
    return known;
  };
  const fitted = fitFront(front, figuresOf, room);
  let [overleaf, onScreen] = [nothing, nothing];
  const back = composeCowBack(words, practice, farmRecord, one, today, {
    seals,
    room,
    more: moreJobs?.items ?? [],
    place: (mostMm) => {
      [overleaf, onScreen] = fitOverleaf(fitted.overleaf, mostMm, room);
      return { usedMm: overleafMm(overleaf, room), leftOut: leftOutInWords(words, onScreen) };
    },
  });
  return {
    id: one.id,
    number: animal.animal,
    feet: feetIcon(
      open.flatMap(({ lesion }) => animal.lesions[lesion] ?? []),
      words.say('cow.feet'),
    ),
    standing,
    running: words.say('cow.running', {
      running: words.say('book.animal.running', { number: animal.animal, standing }),
      sheet: one.place + 1,
    }),
    where: words.say('cow.where'),
    fold: words.say('book.animal.fold'),
    ...fitted,
    overleaf,
    onScreen,
    ...given({ moreJobs }),
    back,
  };
}

type Front = Pick<
  CowSheet,
  | 'banners'
  | 'verdict'
  | 'withheld'
  | 'columns'
  | 'pictures'
  | 'figures'
  | 'maps'
  | 'story'
  | 'ring'
  | 'cautions'
  | 'what'
  | 'identity'
>;

/**
 * What yields where a front is short of room, the first first: height of pictures, maps of feet but the first, the
 * story, drawings but the first, pictures, the first drawing.
 */
const kept = [
  { maps: true, story: true, figures: true, pictures: 'tall' },
  { maps: true, story: true, figures: true, pictures: 'low' },
  { maps: false, story: true, figures: true, pictures: 'low' },
  { maps: false, story: false, figures: true, pictures: 'low' },
  { maps: false, story: true, figures: false, pictures: 'low' },
  { maps: false, story: false, figures: false, pictures: 'low' },
  { maps: false, story: true, figures: false },
  { maps: false, story: false, figures: false },
  { maps: false, story: false },
] as const;
/** The wall at most 50, 34 and 26 mm tall. */
const tallest = [190, 130, 100] as const;

/**
 * The front so that it fits its side, the rest overleaf. Banners, verdict, what is withheld, jobs, the first foot map,
 * cautions and when to ring never yield.
 */
function fitFront(
  { story, pictures, ...rest }: Omit<Front, 'figures' | 'maps'>,
  figuresOf: (tallestPx: number) => readonly BookFigure[],
  room: Room,
): Front & { readonly overleaf: Overleaf } {
  const isMap = ({ id }: BookFigure): boolean => id.includes('-figure-foot-');
  const ways = kept.flatMap((keep) => tallest.map((tallestPx) => ({ keep, tallestPx })));
  const last = { keep: kept.at(-1)!, tallestPx: tallest.at(-1)! };
  const wayOf = ({ keep, tallestPx }: (typeof ways)[number]): Front & { readonly overleaf: Overleaf } => {
    const all = figuresOf(tallestPx);
    const maps = all.filter(isMap);
    const figures = all.filter((figure) => !isMap(figure));
    const height = 'pictures' in keep ? keep.pictures : undefined;
    const stay = 'figures' in keep ? (keep.figures ? figures.length : 1) : 0;
    return {
      ...rest,
      ...(keep.story && story ? { story } : {}),
      ...(height && pictures ? { pictures: { ...pictures, height } } : {}),
      figures: figures.slice(0, stay),
      maps: keep.maps ? maps : maps.slice(0, 1),
      overleaf: {
        maps: keep.maps ? [] : maps.slice(1),
        ...(!keep.story && story ? { story } : {}),
        ...(!height && pictures ? { pictures } : {}),
        figures: figures.slice(stay),
      },
    };
  };
  return wayOf(ways.find((way) => frontMm(wayOf(way), room) <= room.heightMm - slackMm) ?? last);
}

/** A browser sets a side a little taller or lower than the sum. */
const slackMm = 4;
const pictureMm = { tall: 43.5, low: 29 } as const;
/** A foot map in the first column at the foot of a front: 66 of 177 mm. */
const mapScale = 0.87;
/** Border and padding of a banner, mm. */
const bannerMm = 7;
const sizes = {
  gap: 3,
  caption: { pt: 8, lineHeight: 1.3 },
  verdict: { pt: 12, lineHeight: 1.3 },
  job: { pt: 9.5, lineHeight: 1.3 },
  foot: { pt: 8.5, lineHeight: 1.35 },
} as const;

/** Number, place and standing; beside them the place is fitted into what they leave. */
function headMm({ what, identity }: Front, widthMm: number): number {
  const middle = widthMm - 88;
  const lines =
    heightOf(what, middle, { pt: 12, lineHeight: 1.2, weight: 'bold' }) +
    heightOf(identity, middle, { pt: 8, lineHeight: 1.25 });
  return highest([18, lines + 3]);
}

/** Height of a front, mm. */
export function frontMm(front: Front, room: Room): number {
  return stacked(frontParts(front, room), sizes.gap);
}

/** Height of each part of a front from above, mm. */
function frontParts(front: Front, { widthMm }: Room): number[] {
  const third = widthMm / 3 - 3;
  const job = ({ lead, text }: SheetJob): number => 1.2 + heightOf(`${lead} ${text}`, third - 8, sizes.job);
  return [
    headMm(front, widthMm),
    ...front.banners.map(({ heading, items }) =>
      [{ text: heading }, ...items].reduce(
        (sum, item) =>
          sum +
          heightOf(`${'lead' in item ? `${item.lead} ` : ''}${item.text}`, widthMm - 14, {
            ...sizes.job,
            weight: 'bold',
          }),
        bannerMm,
      ),
    ),
    front.verdict.reduce(
      (sum, { lead, text }) => sum + heightOf(paragraph(lead, text), widthMm, sizes.verdict),
      0,
    ),
    front.withheld ? 4 + heightOf(Object.values(front.withheld).join('     '), widthMm - 10, sizes.job) : 0,
    headingMm +
      highest(
        front.columns.map(({ jobs, more }) =>
          jobs.reduce((sum, one) => sum + job(one), more || jobs.length === 0 ? 5 : 0),
        ),
      ),
    picturesMm(front.pictures, third),
    ...front.figures.map((figure) => figureMm(figure, widthMm)),
    footMm(front, widthMm),
  ];
}

function picturesMm(pictures: SheetPictures | undefined, third: number): number {
  if (!pictures) return 0;
  return (
    headingMm +
    pictureMm[pictures.height] +
    2 +
    highest(
      pictures.days.map(({ day, measured, shots }) =>
        heightOf([day, ...measured, shots[0]?.caption ?? ''].join(' · '), third, sizes.caption),
      ),
    )
  );
}

function footMm({ maps, story, ring, cautions }: Front, widthMm: number): number {
  const share = widthMm / 180;
  const map = maps.reduce((sum, { svg }) => sum + drawnMm(svg) * mapScale + 2, 0);
  // Without a story the column beside the map is theirs.
  const side = (story ? 43 : 63) * share;
  const lines = stacked(
    [cautions, ring].map((list) =>
      list
        ? list.items.reduce(
            (sum, text) => sum + 0.8 + heightOf(text, side, sizes.foot),
            1.5 + heightOf(list.heading, side, { pt: 9.5, lineHeight: 1.25, weight: 'bold' }),
          )
        : 0,
    ),
    2,
  );
  const words = story ? storyMm(story, 63 * share) : 0;
  return highest([map === 0 ? 0 : headingMm + map, lines, words === 0 ? 0 : headingMm + words]);
}

function storyMm({ html }: Story, widthMm: number): number {
  return html
    .split(/<\/(?:p|li|h\d|tr|pre)>/)
    .map((block) => block.replaceAll(/<[^>]*>/g, ' ').trim())
    .reduce((sum, text) => sum + (text === '' ? 0 : 1.5 + heightOf(text, widthMm, sizes.foot)), 0);
}

function overleafMm({ pictures, figures, maps, story }: CowSheet['overleaf'], { widthMm }: Room): number {
  return stacked(
    [
      picturesMm(pictures, widthMm / 3 - 3),
      ...figures.map((figure) => figureMm(figure, widthMm)),
      story ? headingMm + storyMm(story, widthMm / 2 - 4) / 2 + 6 : 0,
      Math.ceil(maps.length / 2) * (headingMm + highest(maps.map(({ svg }) => drawnMm(svg))) * mapScale + 2),
    ],
    sizes.gap,
  );
}

const nothing: Overleaf = { figures: [], maps: [] };

/** What of it has room on the back, and what has none: pictures before drawings, drawings before the story and maps of further feet. */
function fitOverleaf(all: Overleaf, mostMm: number, room: Room): [Overleaf, Overleaf] {
  const parts: Overleaf[] = [
    ...(all.pictures ? [{ ...nothing, pictures: all.pictures }] : []),
    ...all.figures.map((figure) => ({ ...nothing, figures: [figure] })),
    ...(all.story ? [{ ...nothing, story: all.story }] : []),
    ...all.maps.map((map) => ({ ...nothing, maps: [map] })),
  ];
  return parts.reduce<[Overleaf, Overleaf]>(
    ([fits, rest], part) => {
      const more = together(fits, part);
      return overleafMm(more, room) <= mostMm ? [more, rest] : [fits, together(rest, part)];
    },
    [nothing, nothing],
  );
}

function together(one: Overleaf, other: Overleaf): Overleaf {
  return {
    ...one,
    ...other,
    figures: [...one.figures, ...other.figures],
    maps: [...one.maps, ...other.maps],
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

/** The numbers first, then when it should be out or how it stands; last how she walks. */
function verdictOf(words: Words, one: PlacedCase, today: CalendarDay): CowSheet['verdict'] {
  const { standing, growth, closings, record } = one;
  const open = standing.lesions.filter(isOpenStanding);
  const about = open.length > 0 ? open : standing.lesions.slice(0, 1);
  const walk = standing.gait.last ? sentenceCase(`${gaitInShort(words, standing.gait)}.`) : '';
  const lines = about.map((lesion) => {
    const line = growth.lesions.find((each) => each.lesion === lesion.lesion);
    const closing = closings.find((each) => each.lesion === lesion.lesion);
    const dates = standing.closed
      ? ''
      : paragraph(line && outSentence(words, line, today), closing && closingSentence(words, closing, today));
    const numbers = line && downInWords(words, lesion, line);
    const name = about.length > 1 ? words.say('cow.named', { name: lesion.lesion }) : '';
    return {
      lead: paragraph(name, numbers),
      text: paragraph(
        numbers && lesion.standing === 'growing-down' ? '' : lesionSentence(words, record.animal, lesion),
        dates,
      ),
    };
  });
  const last = lines.at(-1);
  return last === undefined
    ? [{ lead: '', text: walk }]
    : [...lines.slice(0, -1), { ...last, text: paragraph(last.text, walk) }];
}

/** How much of the wall stands between the coronet and the gap; undefined where no length is known. */
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

function withheldLine(words: Words, one: PlacedCase, today: CalendarDay): NonNullable<CowSheet['withheld']> {
  const { milk, meat } = withheldCells(words, one, today);
  const text = (side: typeof milk): string => paragraph(side.note ? `${side.text}.` : side.text, side.note);
  return {
    heading: words.say('cow.withheld'),
    milk: words.say('cow.withheld-side', { side: words.say('jobs.withheld.milk'), text: text(milk) }),
    meat: words.say('cow.withheld-side', { side: words.say('jobs.withheld.meat'), text: text(meat) }),
  };
}

/** So many jobs of one person stand on a front. */
const jobsOnFront = 6;

/** Who does what, by day; in the vet's column why it is the vet's and how the asking stands. */
function jobColumns(
  words: Words,
  one: PlacedCase,
  today: CalendarDay,
): { readonly columns: readonly JobColumn[]; readonly moreJobs?: TextList } {
  const due = one.due.filter((item) => isOpen(item) && isJob(item));
  const vet = vetLine(words, one, today);
  const columns = (['farm', 'trimmer', 'vet'] as const).map((who) => {
    const items = due
      .filter((item) => item.who === who)
      .toSorted((a, b) => (a.by < b.by ? -1 : a.by > b.by ? 1 : 0));
    const all = [
      ...(who === 'vet' && vet
        ? [
            {
              lead: sentenceCase(vet.when),
              late: vet.urgency !== 'notice',
              text: `${vet.why}. ${sentenceCase(vet.asked)}`,
            },
          ]
        : []),
      ...jobsOf(words, one, items, today),
    ];
    const heading = words.say(`cow.who.${who}`);
    const rest = all.slice(jobsOnFront);
    const front: JobColumn = {
      heading,
      nothing: words.say(`cow.nothing.${who}`),
      jobs: all.slice(0, jobsOnFront),
      ...(rest.length > 0 ? { more: words.say('cow.more-jobs', { count: rest.length }) } : {}),
    };
    return {
      front,
      overleaf: rest.map(({ lead, text }) => words.say('cow.job-of', { who: heading, lead, job: text })),
    };
  });
  const items = columns.flatMap(({ overleaf }) => overleaf);
  return {
    columns: columns.map(({ front }) => front),
    ...(items.length > 0 ? { moreJobs: { heading: words.say('cow.more-jobs-heading'), items } } : {}),
  };
}

/** One line a job: one that is asked for several days stands at the first, with the others. */
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

/** When the farm rings before the next lift, and whom: what anybody may come to see on any cow stands on the first sheet's back. */
function ringIf(
  words: Words,
  { business }: Practice,
  { farm }: FarmRecord,
  one: PlacedCase,
  today: CalendarDay,
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
  words: Words,
  one: PlacedCase,
  today: CalendarDay,
  pictures: BookPictures | undefined,
): SheetPictures | undefined {
  const section = composePictures(words, one.id, one.record.animal, today, {
    pictures,
    turned: turnedOn(one),
  });
  if (!section) return undefined;
  const [first, ...others] = section.strips.toSorted((a, b) => b.large.length - a.large.length);
  if (!first) return undefined;
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
