import { type CalendarDay, addDays } from '../record/calendar-day.js';
import type { CaseWork } from '../schedule/case-work.js';
import type { Side } from '../schedule/withheld.js';
import { withheldInWords } from '../words/compose-withheld.js';
import type { Words } from '../reference/words.js';
import type { Cell } from './page-parts.js';
import { given } from '../record/given.js';
import { urgencies } from '../reference/notices.js';
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
    return { text, ...given({ strong: isHeld || undefined, note }) };
  };
  return { milk: cell('milk'), meat: cell('meat') };
}

/** One animal's line of the vet's list; undefined where there is nothing. */
export function vetLine(
  words: Words,
  { notices, due }: Pick<CaseWork, 'notices' | 'due'>,
  today: CalendarDay,
) {
  const [first, ...more] = standingNotices({ notices });
  if (first === undefined) return undefined;
  return {
    urgency: first.urgency,
    /** How soon. */
    when: words.say(`book.vet.urgency.${first.urgency}`),
    /** The chief reason, and how many more there are. */
    why: chiefReason(words, first, more.length),
    /** Asked, and no answer in time. */
    ringAgain: due.some(({ what }) => what === 'vet-ring-again'),
    /** Whether the vet was asked. */
    asked: asking(words, [first, ...more], due, today),
  };
}

/** What is on an animal for the vet, the most urgent first. */
export function standingNotices({ notices }: Pick<CaseWork, 'notices'>): Notice[] {
  const rank = ({ urgency }: Notice): number => urgencies.indexOf(urgency);
  return notices.filter(({ standing }) => standing).toSorted((a, b) => rank(a) - rank(b));
}

function chiefReason(words: Words, { rule, foot }: Notice, count: number): string {
  const title = words.say(`notice.rule.${rule}.title`);
  const reason = foot ? words.say('jobs.vet.reason-at', { title, place: placeInWords(words, foot) }) : title;
  return count === 0 ? reason : words.say('jobs.vet.more', { reason, count });
}

/** What is still to be asked, then what is awaited, then the last answer. */
function asking(words: Words, notices: readonly Notice[], due: CaseWork['due'], today: CalendarDay): string {
  const last = (days: readonly CalendarDay[]) => days.toSorted().at(-1);
  const awaited = last(notices.flatMap(({ asked, answered }) => (asked && !answered ? [asked.on] : [])));
  const answered = last(notices.flatMap((notice) => notice.answered?.on ?? []));
  const [seenAgain] = notices.flatMap((notice) => notice.seenAgain ?? []);
  const ringsAgain = due.some(({ why }) => why.key === 'due.why.vet-ring-again');
  const on = (key: string, day: CalendarDay | undefined) =>
    day && words.say(`jobs.vet.${key}`, { day: planDay(words, day, today) });
  return words.semicolons([
    on('seen-again', seenAgain),
    notices.some((notice) => !notice.asked && !notice.answered) && words.say('jobs.vet.not-asked'),
    on(ringsAgain ? 'ring-again' : 'asked-on', awaited),
    on('answered-on', answered),
    ...due
      .filter(({ what, task }) => what === 'vet-ring-again' && task !== undefined)
      .map(({ by }) => on('promised', addDays(by, -1))),
  ]);
}
