import { type CalendarDay, addDays } from '../record/calendar-day.js';
import type { CaseWork } from '../schedule/case-work.js';
import type { Side } from '../schedule/withheld.js';
import { withheldInWords } from '../words/compose-withheld.js';
import type { Words } from '../reference/words.js';
import type { Cell } from './page-parts.js';
import { given } from '../record/given.js';
import { urgencies, type Urgency } from '../reference/notices.js';
import type { Notice } from '../schedule/notices/notice-rule.js';
import { placeInWords, planDay } from '../words/day-and-place.js';

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

/** One animal's line of the vet's list; undefined where nothing stands. */
export function vetLine(
  words: Words,
  { notices, due }: Pick<CaseWork, 'notices' | 'due'>,
  today: CalendarDay,
): VetLine | undefined {
  const [first, ...more] = standingNotices({ notices });
  if (first === undefined) return undefined;
  return {
    urgency: first.urgency,
    when: words.say(`book.vet.urgency.${first.urgency}`),
    why: chiefReason(words, [first, ...more]),
    ringAgain: due.some(({ what }) => what === 'vet-ring-again'),
    asked: asking(words, [first, ...more], due, today),
  };
}

/** What stands on an animal for the vet, the most urgent first. */
export function standingNotices({ notices }: Pick<CaseWork, 'notices'>): Notice[] {
  return notices.filter(({ standing }) => standing).toSorted((a, b) => rank(a) - rank(b));
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
