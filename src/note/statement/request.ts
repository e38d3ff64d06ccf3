import type { CalendarDay } from '../../record/calendar-day.js';
import type { FarmTask, VetTask } from '../../record/words.js';
import { comingDay, type DayOfNote, pastDay } from '../day-of.js';
import { skip } from '../note-text.js';
import { type Phrase, phraseAt } from '../phrase.js';
import type { VisitReader } from '../visit-reader.js';

/** `look again 4 weeks`, `look again on 31 March`. */
export function readRecheck(r: VisitReader, at: number, phrase: Phrase): number {
  const { tokens } = r.note;
  const from = skip(tokens, phrase.next, 'in', 'on', 'by', 'after', 'another', 'about', 'around');
  const said = comingDay(r, from);
  if (said?.day !== undefined) {
    r.set('recheck', said.day, at, said.next, `look again on ${said.day}`);
    return said.next;
  }
  if (said) return said.next;
  r.ask(at, phrase.next, {
    id: 'look-again-when',
    ask: 'look again when?',
    mend: 'write a day, or a number of days or weeks, as in `look again 4 weeks`',
    replace: [phrase.next, phrase.next],
    choices: [2, 4, 6].map((weeks) => ({ label: `${weeks} weeks`, text: ` in ${weeks} weeks` })),
  });
  return phrase.next;
}

/** `ask farm: straw pen by 3 Feb, block watch in a week`. */
export function readAskFarm(r: VisitReader, at: number, phrase: Phrase): number | undefined {
  return readTasks(r, at, phrase, {
    day: (from) => dayAfter(r, from, comingDay),
    put: (what, by) => (r.draft['ask-farm'] ??= []).push({ what, by }),
    as: (what, day) => `farm asked: ${what} by ${day}`,
    ask: 'by which day is the farm to have done it?',
    choices: [{ label: 'in a week', text: ' in 7 days' }],
  });
}

/** `farm did straw pen 3 Feb`. */
export function readFarmDid(r: VisitReader, at: number, phrase: Phrase): number | undefined {
  return readTasks(r, at, phrase, {
    day: (from) => dayAfter(r, from, pastDay),
    put: (what, on) => (r.draft['farm-did'] ??= []).push({ what, on }),
    as: (what, day) => `farm did: ${what} on ${day}`,
    ask: 'on which day did the farm do it?',
    choices: [{ label: 'that day', text: ` ${r.date}` }],
  });
}

/** `vet does: wrap off on 3 Feb`, behind his answer. */
export function readVetDoes(r: VisitReader, at: number, phrase: Phrase): number | undefined {
  const answer = r.draft['vet-answer'];
  if (answer) {
    return readTasks<VetTask>(r, at, phrase, {
      kinds: ['task', 'vet-task'],
      day: (from) => dayAfter(r, from, comingDay),
      put: (what, on) => (answer.does ??= []).push({ what, on }),
      as: (what, day) => `the vet does: ${what} on ${day}`,
      ask: 'on which day does the vet do it?',
      choices: [{ label: 'that day', text: ` ${r.date}` }],
    });
  }
  r.ask(at, phrase.next, {
    id: 'vet-answer-part',
    ask: 'what did the vet answer? What he does stands behind his answer',
    mend: 'write `vet answered to 26 May:` and the reply before it',
  });
  return phrase.next;
}

interface TaskList<T extends VetTask> {
  /** Kinds of words a task may be; those of the farm where nothing is said. */
  readonly kinds?: readonly string[];
  readonly day: (from: number) => DayOfNote | undefined;
  readonly put: (what: T, day: CalendarDay) => void;
  readonly as: (what: T, day: CalendarDay) => string;
  readonly ask: string;
  readonly choices: readonly { label: string; text: string }[];
}

function readTasks<T extends VetTask = FarmTask>(
  r: VisitReader,
  at: number,
  phrase: Phrase,
  list: TaskList<T>,
): number | undefined {
  const { tokens } = r.note;
  let next = phrase.next;
  let from = at;
  for (;;) {
    const start = skip(tokens, next, 'and', 'to', 'with', 'her', 'the', 'do', 'also');
    const [task] = (list.kinds ?? ['task']).flatMap((kind) => phraseAt(tokens, start, kind) ?? []);
    if (!task) return next === phrase.next ? undefined : next;
    const what = task.value as T;
    const day = list.day(task.next);
    next = day?.next ?? task.next;
    if (day?.day !== undefined) {
      list.put(what, day.day);
      r.say(from, next, list.as(what, day.day));
    } else if (!day) {
      r.ask(from, next, {
        id: 'task-when',
        ask: `${what}: ${list.ask}`,
        mend: `write a day behind it, as in \`${what} 17 February\``,
        replace: [next, next],
        choices: list.choices,
      });
    }
    from = next;
  }
}

function dayAfter(
  r: VisitReader,
  at: number,
  read: (r: VisitReader, at: number) => DayOfNote | undefined,
): DayOfNote | undefined {
  const from = skip(r.note.tokens, at);
  const word = phraseAt(r.note.tokens, from, 'by-day');
  return read(r, word?.next ?? from);
}

/** `rang the vet, heat above the foot`: asked on the day of the visit unless a day is said. */
export function vetDay(r: VisitReader, at: number): { day: CalendarDay; next: number } {
  const from = skip(r.note.tokens, at, 'on');
  const day = pastDay(r, from);
  return { day: day?.day ?? r.date, next: day?.next ?? at };
}
