import type { AnimalSeals } from '../ledger/seals-of-animal.js';
import { given } from '../record/given.js';
import type { CalendarDay } from '../record/calendar-day.js';
import { isLiftingVisit } from '../record/lifting.js';
import type { Visit } from '../record/visit.js';
import { saidAt, type Words, told } from '../reference/words.js';
import { closingBasis, nextWidthSentence } from '../words/compose-closing.js';
import { nameOf } from '../words/compose-standing.js';
import { nextLift } from '../schedule/next-lift.js';
import { readingToTake } from '../schedule/reading-to-take.js';
import { noticeInWords } from '../words/compose-due.js';
import { basisSentence, nextReadingSentence, worthSentence } from '../words/compose-regrowth.js';
import { dayInShort, dayInWords, sentenceCase } from '../words/day-and-place.js';
import { animalRecord } from './animal-record.js';
import type { OfBook, PlacedCase } from './animal-page-data.js';
import { smallest } from '../statistics/estimate.js';
import { headingMm, heightOf, highest, type Room, type Setting, sumOf } from './fit.js';
import { standingNotices } from './withheld-list.js';
import { missingLines } from './missing-lines.js';
import { composeMoneyCard } from './money-card.js';
import { type Fact, listOf } from './page-parts.js';
import { lateSeal, loggedAs, logSetting, type Telling, visitFacts } from './visit-log.js';
import { phraseOf } from './work-in-words.js';

/** A visit in one row. */
export interface BackRow {
  readonly day: string;
  readonly by: string;
  /** Told by the farm, no foot lifted. */
  readonly report: boolean;
  /** As many as the columns behind the first; of a report two: the walk, and all the rest. */
  readonly cells: readonly string[];
  /** The measures alone, for where there is no room for the rest. */
  readonly brief: string;
}

/** The back of a cow's sheet. */
export type CowBack = ReturnType<typeof composeCowBack>;

const rowType: Setting = { pt: 8, lineHeight: 1.25 };
const small: Setting = { pt: 7.5, lineHeight: 1.3 };
/** Above and below a row with its rule, and beside each cell, mm. */
const paddingMm = 1.5;
const besideMm = 1.6;
/** Head, heads of the columns, what is shortened, and the gaps between. */
const aroundMm = 35;
/** What of the visits is on the back whatever else does, mm. */
const leastRowsMm = 60;
/** So many signs for the vet are given in full. */
const mostNotices = 4;
/** So many entries that are missing in her record are said. */
const mostMissing = 7;
/** A line to write on, and at most how many. */
const lineMm = 9;
const mostLines = 4;

/** Her seals, the room of a side, and what the back holds beside her visits. */
interface BackSetting {
  readonly seals: AnimalSeals | undefined;
  readonly room: Room;
  /** Jobs that found no room on the front. */
  readonly more: readonly string[];
  /** Places what found no room on the front; how high that is, and what is left out even here. */
  readonly place: (mostMm: number) => { readonly usedMm: number; readonly leftOut: string | undefined };
}

/** Every visit, latest first; what the date is based on, her record with what is missing in it, and what the case has cost. */
export function composeCowBack(of: OfBook, one: PlacedCase, { seals, room, more, place }: BackSetting) {
  const { words, practice, farm } = of;
  const { animal } = one.record;
  const say = (key: string, values = {}) => words.say(`cow.back.${key}`, values);
  const same = sameAtEach(animal.visits);
  const isOneGap =
    Object.keys(animal.lesions).length === 1 && one.growth.lesions.length === 1 && !animal.marks;
  const kind: Kind = isOneGap ? 'gap' : 'several';
  const columns = columnsOf(words, kind, room.widthMm);
  const setting = logSetting(practice, farm, seals);
  const leave = new Set([...Object.keys(same), ...(isOneGap ? ['top', 'wall', 'width'] : [])]);
  const rows = animal.visits.map((visit, at) =>
    rowOf({ words, animal, visit, at, setting, leave }, same, isOneGap),
  );
  const andMore = (key: string, count: number) => (count > 0 ? [say(`more-${key}`, { count })] : []);
  const missed = missingLines(words, one);
  const said = missed.length <= mostMissing ? mostMissing : mostMissing - 1;
  const missing = [...missed.slice(0, said), ...andMore('missing', missed.length - said)];
  const money = composeMoneyCard(of, one);
  const basis = basisOf(words, one);
  const next = atNextLift(of, one);
  const notices = standingNotices(one).map((notice) => noticeInWords(words, animal, notice));
  const vet = [...notices.slice(0, mostNotices), ...andMore('notices', notices.length - mostNotices)];
  const record = animalRecord(words, animal, seals);
  const numberLabel = words.say(saidAt(words, 'log', 'animal.animal') ?? '');
  const half = room.widthMm / 2 - 4;
  const list = (items: readonly string[]): number =>
    items.length === 0 ? 0 : headingMm + 3 + sumOf(items.map((text) => 0.4 + heightOf(text, half, small)));
  const recordText = record.facts.map(({ label, value }) => `${label} ${value} · `).join('');
  const sections = [
    ...[more, vet, next, basis, [recordText], missing].map(list),
    money ? list(money.notes) + money.table.rows.length * 5 + 10 : 0,
  ];
  const freeMm = room.heightMm - aroundMm - inTwoColumns(sections);
  const { usedMm, leftOut } = place(freeMm - leastRowsMm);
  const { shown, shortened, dropped, leftMm } = fitted(rows.reverse(), columns, freeMm - usedMm);
  const counted = words.dots([
    shortened > 0 && say('shortened', { count: shortened }),
    dropped > 0 && say('dropped', { count: dropped }),
    leftOut,
  ]);
  return {
    heading: say('heading'),
    /** What is the same at every visit, once. */
    lead: words.dots([say('lead'), scaleOf(words, one), ...sameInWords(words, same)]),
    /** Which widths its columns have. */
    kind,
    columns,
    rows: shown,
    ...given({
      /** How many older visits are shortened, and how many are in the annex alone. */
      shortened: counted === '' ? undefined : counted,
      /** Why she is the vet's, each sign with what raised it and whether the vet was asked. */
      vet: listOf(say('vet'), vet),
      /** What her next readings should show, and which one would narrow a date most. */
      next: listOf(say('next'), next),
      basis: listOf(say('basis'), basis),
      missing: listOf(words.say('book.animal.missing'), missing),
      money,
    }),
    // Her number is at the head of both sides.
    record: { ...record, facts: record.facts.filter(({ label }) => label !== numberLabel) },
    costs: say('costs'),
    /** To write on, as many as find room. */
    lines: {
      heading: say('lines'),
      count: Math.min(mostLines, Math.max(0, Math.floor((leftMm - headingMm - 4) / lineMm))),
    },
  };
}

function scaleOf(words: Words, { standing }: PlacedCase): string | undefined {
  const scale = standing.gait.last?.scale;
  return scale && words.say('cow.back.scale', { scale: words.say(`vocabulary.gait-scale.${scale}`) });
}

/** Widths of the columns of a back, in parts: of a cow with one gap and nothing else, and of any other. */
export const columnShares = {
  gap: { day: 22, walk: 12, top: 10, wall: 10, width: 10, found: 32, done: 54, asked: 40 },
  several: { day: 22, walk: 12, found: 60, done: 56, asked: 40 },
};
const numbers = new Set(['walk', 'top', 'wall', 'width']);

type Kind = keyof typeof columnShares;

function columnsOf(words: Words, kind: Kind, widthMm: number) {
  const shares = Object.entries(columnShares[kind]);
  const whole = sumOf(shares.map(([, part]) => part));
  return shares.map(([key, part]) => ({
    head: words.say(`cow.back.column.${key}`),
    widthMm: (part * widthMm) / whole,
    number: numbers.has(key),
  }));
}

type Columns = ReturnType<typeof columnsOf>;

/** Height of sections one after the other in two columns as even as may be, none broken, mm. */
function inTwoColumns(sections: readonly number[]): number {
  const ways = sections.map((_, at) => highest([sumOf(sections.slice(0, at)), sumOf(sections.slice(at))]));
  return smallest(ways, sumOf(sections));
}

/** Of each key that has one value at every visit that lifted a foot: that value. */
interface Same {
  readonly tool?: string;
  readonly 'top-found'?: string;
  readonly 'tools-disinfected'?: boolean;
}

function sameAtEach(visits: readonly Visit[]): Same {
  const found = visits.flatMap((visit) => Object.values(visit.found ?? {}));
  const of = <K extends 'tool' | 'top-found'>(key: K) =>
    onlyOne(found.filter((one) => one.top !== undefined || one[key] !== undefined).map((one) => one[key]));
  return given({
    tool: of('tool'),
    'top-found': of('top-found'),
    'tools-disinfected': onlyOne(
      visits
        .filter((visit) => isLiftingVisit(visit) || visit['tools-disinfected'] !== undefined)
        .map((visit) => visit['tools-disinfected']),
    ),
  });
}

function onlyOne<T>(values: readonly T[]): T | undefined {
  const [first, ...others] = new Set(values);
  return others.length === 0 && values.length > 1 ? first : undefined;
}

function sameInWords(words: Words, same: Same): string[] {
  const said = Object.entries(same).map(([key, value]) =>
    phraseOf(words, key === 'tools-disinfected' ? `visits.${key}` : `visits.found.${key}`, value),
  );
  return said.length === 0 ? [] : [...said.flatMap((one) => one ?? []), words.say('cow.back.at-each')];
}

/** What is in the last column: who was asked for what, what came of it, and what is to be known next time. */
const asked: ReadonlySet<keyof Visit> = new Set<keyof Visit>([
  'vet',
  'vet-answer',
  'ask-farm',
  'farm-did',
  'recheck',
  'note',
  'amended',
]);

function rowOf(telling: Telling, same: Same, isOneGap: boolean): BackRow {
  const { words, visit, at, setting: log } = telling;
  const only = isOneGap ? Object.values(visit.found ?? {})[0] : undefined;
  const short = { ...telling, words: shortDays(words) };
  const said = (keys: readonly (keyof Visit)[]): string =>
    visitFacts(short, keys)
      .map((fact) => sentenceCase(factInLine(isOneGap ? unlabelled(telling, fact) : fact)))
      .filter((line) => line !== '')
      .join('. ');
  const found = [...loggedAs('found'), ...loggedAs('found+')].filter((key) => key !== 'gait');
  const done = [...loggedAs('done'), ...loggedAs('done+')];
  const report = !isLiftingVisit(visit);
  const number = (value: number | undefined): string => (value === undefined ? '' : words.number(value));
  const seen = words.semicolons([phraseOf(words, 'visits.gait-by', visit['gait-by']), said(found)]);
  return {
    day: dayInRow(words, visit.date, telling.animal.visits.at(-1)?.date),
    by: words.commas([
      told(visit.by),
      !report && visit.kind !== 'recheck' && words.say(`vocabulary.visit-kind.${visit.kind}`),
      visit.kind === 'missed' && words.say('vocabulary.visit-kind.missed'),
      ...loggedAs('about')
        .filter((key) => !(key in same))
        .map((key) => phraseOf(words, `visits.${key}`, visit[key])),
      lateSeal(words, log.seals?.[at]),
    ]),
    report,
    brief: isOneGap || report ? '' : measuresIn(short),
    cells: [
      walkOf(words, visit),
      ...(report
        ? [[seen, said(done)].filter((text) => text !== '').join('. ')]
        : [
            ...(isOneGap ? [number(only?.top), number(only?.wall), number(only?.width)] : []),
            seen,
            said(done.filter((key) => !asked.has(key))),
            said(done.filter((key) => asked.has(key))),
          ]),
    ],
  };
}

const measured = new Set(['top', 'wall', 'width', 'length', 'stage', 'state']);

/** What was measured of each lesion, by its short name. */
function measuresIn({ words, visit: { found = {} } }: Telling): string {
  return words.semicolons(
    Object.entries(found).map(([name, one]) => {
      const said = Object.entries(one).filter(([key]) => measured.has(key));
      const facts = words.commas(said.map(([key, value]) => phraseOf(words, `visits.found.${key}`, value)));
      return facts !== '' && words.say('cow.back.brief', { name, facts });
    }),
  );
}

/** The year is given with a day of another year than that of the latest visit. */
function dayInRow(words: Words, day: CalendarDay, latest = day): string {
  return day.slice(0, 4) === latest.slice(0, 4)
    ? dayInShort(words, day)
    : dayInWords(shortMonths(words), day);
}

/** The same words with months cut short. */
function shortMonths(words: Words): Words {
  return {
    ...words,
    say: (key, values) => words.say(key.replace(/^calendar\.month\./, 'calendar.short-month.'), values),
  };
}

/** The same words with days cut short: of a visit's row they are days near it. */
function shortDays(words: Words): Words {
  const short = shortMonths(words);
  return {
    ...short,
    say: (key, values) => short.say(key === 'calendar.day' ? 'calendar.short-day' : key, values),
  };
}

/** Her one lesion needs no name in each row. */
function unlabelled({ visit }: Telling, fact: Fact): Fact {
  const [name] = Object.keys(visit.found ?? {});
  return name !== undefined && fact.label.startsWith(name) ? { ...fact, label: '' } : fact;
}

function factInLine({ label, value, lines = [] }: Fact): string {
  const whole = [value, ...lines].filter((line) => line !== '').join('; ');
  return label === '' || whole === '' ? whole : `${label}: ${whole}`;
}

/** Her score, and whether a block was on where that is recorded. */
function walkOf(words: Words, { gait, 'on-block': isOn }: Visit): string {
  if (gait === undefined) return phraseOf(words, 'visits.on-block', isOn) ?? '';
  const score = words.number(gait);
  return isOn === undefined ? score : words.say(`cow.back.${isOn ? 'on' : 'off'}-block`, { score });
}

/** Height of a row, mm: its highest cell; the last of a report takes all columns that are left. */
function rowMm({ day, by, cells, report }: BackRow, columns: Columns): number {
  const rest = sumOf(columns.slice(2).map(({ widthMm }) => widthMm));
  const widths = columns.map(({ widthMm }, at) => (report && at === 2 ? rest : widthMm) - besideMm);
  return (
    paddingMm +
    highest([
      heightOf(day, widths[0]!, { ...rowType, weight: 'bold' }) + heightOf(by, widths[0]!, rowType),
      ...cells.map((text, at) => heightOf(text, widths[at + 1]!, rowType)),
    ])
  );
}

/** The latest visits whole; where the room ends, older ones by their numbers alone; the oldest counted. */
function fitted(all: readonly BackRow[], columns: Columns, roomMm: number) {
  const bare = (row: BackRow): BackRow => ({
    ...row,
    by: '',
    cells: row.cells.map((text, at) => (columns[at + 1]!.number ? text : at === 1 ? row.brief : '')),
  });
  const bareMm = all.map((row) => rowMm(bare(row), columns));
  const olderMm = (at: number) => sumOf(bareMm.slice(at + 1));
  const shown: BackRow[] = [];
  let room = roomMm;
  let shortened = 0;
  let dropped = 0;
  for (const [at, row] of all.entries()) {
    const whole = rowMm(row, columns);
    if (shortened + dropped === 0 && whole + olderMm(at) <= room) {
      shown.push(row);
      room -= whole;
    } else if (dropped === 0 && bareMm[at]! <= room) {
      shown.push(bare(row));
      shortened += 1;
      room -= bareMm[at]!;
    } else dropped += 1;
  }
  return { shown, shortened, dropped, leftMm: room };
}

function atNextLift({ words, farm: { farm }, today }: OfBook, one: PlacedCase): string[] {
  const day = nextLift(farm, one, today);
  if (day === undefined || one.standing.closed) return [];
  const { animal } = one.record;
  const reading = readingToTake(farm, one, today);
  const expected = [
    ...one.growth.lesions.map((gap) => ({ ...gap, sentence: () => nextReadingSentence(words, gap, day) })),
    ...one.closings.map((ulcer) => ({ ...ulcer, sentence: () => nextWidthSentence(words, ulcer, day) })),
  ].flatMap(({ lesion, forecast, sentence }) => {
    const said = forecast.outcome === 'range' ? sentence() : '';
    return said === '' ? [] : [{ lesion, said }];
  });
  return [
    ...expected.map(({ lesion, said: sentence }) =>
      expected.length === 1
        ? sentence
        : words.say('book.animal.of-lesion', { name: nameOf(words, animal, lesion), sentence }),
    ),
    ...(reading ? [worthSentence(words, animal, one.growth, reading)] : []),
  ];
}

function basisOf(words: Words, one: PlacedCase): string[] {
  if (one.standing.closed) return [];
  const gaps = one.growth.lesions.filter(
    ({ readings, forecast }) =>
      readings.length > 0 && !(forecast.outcome === 'none' && forecast.why === 'healed'),
  );
  return [
    ...gaps.map((gap) => basisSentence(words, one.growth, gap)),
    ...one.closings.map((closing) => closingBasis(words, closing)),
  ].filter((sentence) => sentence !== '');
}
