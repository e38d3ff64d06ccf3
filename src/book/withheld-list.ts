import { type CalendarDay, addDays } from '../record/calendar-day.js';
import type { Farm } from '../record/farm.js';
import type { CaseWork } from '../schedule/case-work.js';
import { antimicrobialBaths, isWithheld, type Side, sides } from '../schedule/withheld.js';
import { withheldInWords } from '../words/compose-withheld.js';
import { type Words, told } from '../reference/words.js';
import { animalCell, type PlacedCase } from './animal-page-data.js';
import type { Cell, TableSection } from './page-parts.js';
import { given } from '../record/given.js';
import { urgencies, type Urgency } from '../reference/notices.js';
import type { Notice } from '../schedule/notices/notice-rule.js';
import { placeInWords, planDay } from '../words/day-and-place.js';

/** Whose milk or meat is withheld: one line an animal, of each the latest day, or that it is not known. */
export function composeWithheld(
  words: Words,
  farm: Farm,
  cases: readonly PlacedCase[],
  today: CalendarDay,
): TableSection {
  const animals = cases.filter(({ withheld }) => isWithheld(withheld));
  const section = { id: 'withheld', heading: words.say('jobs.withheld.heading') };
  const herd = antimicrobialBaths(farm)
    .filter(({ from = '' }) => from <= today)
    .map(({ product }) => words.say('jobs.withheld.herd', { product }));
  if (animals.length === 0)
    return { ...section, lead: herd.length > 0 ? herd : [words.say('jobs.withheld.none')] };
  return {
    ...section,
    lead: [...herd, words.say('jobs.withheld.lead')],
    table: {
      id: 'withheld-table',
      caption: words.say('jobs.withheld.caption'),
      columns: [
        { head: words.say('jobs.animals') },
        ...sides.map((side) => ({ head: words.say(`jobs.withheld.${side}`) })),
      ],
      rows: animals.map((one) => {
        const cells = withheldCells(words, one, today);
        return { cells: [animalCell(words, one), ...sides.map((side) => cells[side])] };
      }),
    },
  };
}

/** What is withheld of one animal, in two cells; strong where something is, or may be. */
export function withheldCells(
  words: Words,
  { withheld }: Pick<CaseWork, 'withheld'>,
  today: CalendarDay,
): Readonly<Record<Side, Cell>> {
  const cell = (side: Side): Cell => {
    const { text, note, isHeld } = withheldInWords(words, withheld[side], side, today);
    return {
      text,
      ...(isHeld ? { strong: true } : {}),
      ...given({ note }),
    };
  };
  return { milk: cell('milk'), meat: cell('meat') };
}

/** Her standing notices, the most urgent first. */
type Hers = readonly [Notice, ...Notice[]];

/** What there is to say of one animal that is the vet's. */
interface VetLine {
  readonly urgency: Urgency;
  /** How soon. */
  readonly when: string;
  /** The chief reason, and how many more there are. */
  readonly why: string;
  /** Asked, and no answer in time. */
  readonly ringAgain: boolean;
  /** How the asking stands. */
  readonly asked: string;
}

/** The veterinary surgeon's list: one line an animal, most urgent first, with the chief reason and how the asking stands. */
export function composeVetList(
  words: Words,
  { vet }: Farm,
  cases: readonly PlacedCase[],
  today: CalendarDay,
): TableSection {
  const animals = cases
    .flatMap((one) => {
      const line = vetLine(words, one, today);
      return line ? [{ one, line }] : [];
    })
    .sort(
      (a, b) =>
        urgencies.indexOf(a.line.urgency) - urgencies.indexOf(b.line.urgency) ||
        Number(b.line.ringAgain) - Number(a.line.ringAgain),
    );
  const section = { id: 'vet-list', heading: words.say('jobs.vet.heading') };
  const who = words.semicolons([vet?.practice, vet?.name, vet?.phone].map(told));
  const practice = who === '' ? words.say('jobs.vet.no-practice') : words.say('jobs.vet.practice', { who });
  if (animals.length === 0) return { ...section, lead: [`${words.say('jobs.vet.none')} ${practice}`] };
  return {
    ...section,
    lead: [`${words.say('jobs.vet.lead')} ${practice}`],
    table: {
      id: 'vet-table',
      caption: words.say('jobs.vet.caption'),
      columns: [
        { head: words.say('jobs.animals') },
        ...['when', 'why', 'asked'].map((key) => ({ head: words.say(`jobs.vet.${key}`) })),
      ],
      rows: animals.map(({ one, line }) => ({
        cells: [
          animalCell(words, one),
          { text: line.when, strong: line.urgency !== 'notice' },
          { text: line.why },
          { text: line.asked },
        ],
      })),
    },
  };
}

/** One animal's line of the vet's list; undefined where nothing stands. */
export function vetLine(
  words: Words,
  { notices, due }: Pick<CaseWork, 'notices' | 'due'>,
  today: CalendarDay,
): VetLine | undefined {
  const [first, ...more] = notices.filter(({ standing }) => standing).toSorted((a, b) => rank(a) - rank(b));
  if (first === undefined) return undefined;
  return {
    urgency: first.urgency,
    when: words.say(`book.vet.urgency.${first.urgency}`),
    why: chiefReason(words, [first, ...more]),
    ringAgain: due.some(({ what }) => what === 'vet-ring-again'),
    asked: asking(words, [first, ...more], due, today),
  };
}

function rank({ urgency }: Notice): number {
  return urgencies.indexOf(urgency);
}

function chiefReason(words: Words, [chief, ...others]: Hers): string {
  const title = words.say(`notice.rule.${chief.rule}.title`);
  const reason = chief.foot
    ? words.say('jobs.vet.reason-at', { title, place: placeInWords(words, chief.foot) })
    : title;
  return others.length === 0 ? reason : words.say('jobs.vet.more', { reason, count: others.length });
}

/** What is still to be asked, then what is awaited, then the last answer. */
function asking(words: Words, notices: readonly Notice[], due: CaseWork['due'], today: CalendarDay): string {
  const last = (days: readonly CalendarDay[]) => days.toSorted().at(-1);
  const awaited = last(notices.flatMap(({ asked, answered }) => (asked && !answered ? [asked.on] : [])));
  const answered = last(notices.flatMap((notice) => notice.answered?.on ?? []));
  return words.semicolons([
    ...notices
      .flatMap(({ seenAgain }) => seenAgain ?? [])
      .slice(0, 1)
      .map((day) => words.say('jobs.vet.seen-again', { day: planDay(words, day, today) })),
    notices.some((notice) => !notice.asked && !notice.answered) && words.say('jobs.vet.not-asked'),
    awaited &&
      words.say(
        due.some(({ why }) => why.key === 'due.why.vet-ring-again')
          ? 'jobs.vet.ring-again'
          : 'jobs.vet.asked-on',
        { day: planDay(words, awaited, today) },
      ),
    answered && words.say('jobs.vet.answered-on', { day: planDay(words, answered, today) }),
    ...due
      .filter(({ what, task }) => what === 'vet-ring-again' && task !== undefined)
      .map(({ by }) => words.say('jobs.vet.promised', { day: planDay(words, addDays(by, -1), today) })),
  ]);
}
