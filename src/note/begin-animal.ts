import type { CalendarDay } from '../record/calendar-day.js';
import type { FarmRecord } from '../record/practice.js';
import { type AnimalAt, nearNumbers, visitDay } from './heading.js';
import { peopleOf } from './place-said.js';
import type { NoteLines } from './note-lines.js';
import { skip, stretchOf } from './note-text.js';
import { VisitReader } from './visit-reader.js';
import type { WaitingWords } from './waiting.js';

/** Her number begins what is told of her; the first token behind it and her own day. */
export function beginAnimal(lines: NoteLines, at: number, { found, next }: AnimalAt): number {
  const { tokens } = lines.note;
  lines.flush();
  const called = stretchOf(lines.note, at, next).text;
  const ownDay = dayOfAnimal(lines, next);
  const days = ownDay?.days ?? lines.days;
  const [one] = found;
  if (found.length !== 1 || !one) {
    wait(lines, at, next, called, found, days?.length === 1 ? days[0] : undefined);
    if (ownDay && lines.current && 'to' in lines.current) lines.current.to = ownDay.next;
    return ownDay?.next ?? next;
  }
  const date = days?.[0] ?? lines.context.today;
  const known = lines.animals.find(
    (other): other is VisitReader =>
      other instanceof VisitReader && other.record === one.record && other.date === date,
  );
  const reader =
    known ??
    new VisitReader(
      lines.note,
      lines.context,
      one.farm,
      one.record,
      peopleOf(lines.context.business, one.farm),
      called,
      next,
      date,
      firstMetSoFar(lines, one.record),
    );
  if (!known) lines.animals.push(reader);
  reader.subject = { is: 'nothing' };
  reader.mention = undefined;
  reader.heading = true;
  lines.current = reader;
  reader.say(at, next, `animal ${one.record.animal.animal} on ${one.farm.farm.farm}`);
  if (ownDay) reader.say(next, ownDay.next, ownDay.days.join(' or '));
  if (!known && days?.length !== 1) askDay(lines, reader, next, ownDay?.next, days ?? []);
  reader.heading = true;
  return ownDay?.next ?? skip(tokens, next);
}

/** Animals that bore this number before; who bears it now has been looked for already. */
function bornNumber(
  farms: readonly FarmRecord[],
  called: string,
): readonly { readonly record: FarmRecord['cases'][number]; readonly until: string }[] {
  const number = called.replace(/^.*\s/, '').trim().toLowerCase();
  return farms.flatMap(({ slug, cases }) =>
    cases.flatMap((record) =>
      (record.animal.earlier ?? [])
        .filter((one) => one.animal?.toLowerCase() === number && (one.farm ?? slug) === slug)
        .map(({ until }) => ({ record, until: until ?? 'an unknown day' })),
    ),
  );
}

/** A lesion first met on one day of a note has its name on the days told after it. */
function firstMetSoFar(lines: NoteLines, record: VisitReader['record']): VisitReader['firstMet'] {
  const earlier = lines.animals.flatMap((other) =>
    other instanceof VisitReader && other.record === record ? [other.firstMet] : [],
  );
  return Object.assign({}, ...earlier) as VisitReader['firstMet'];
}

function dayOfAnimal(lines: NoteLines, at: number): ReturnType<typeof visitDay> {
  return visitDay(lines.context, lines.note.tokens, skip(lines.note.tokens, at, 'on', 'the'));
}

function askDay(
  lines: NoteLines,
  r: VisitReader,
  at: number,
  next: number | undefined,
  days: readonly CalendarDay[],
): void {
  r.ask(at, next ?? at, {
    id: 'no-day',
    ask: days.length > 1 ? `which day is it, ${days.join(' or ')}?` : 'on which day?',
    mend: 'write the day beside the farm or behind her number, the month in letters: 3 March 2026',
    choices: (days.length > 0 ? days : [lines.context.today]).map((day) => ({
      label: day,
      text: ` ${day} `,
    })),
  });
}

function wait(
  lines: NoteLines,
  at: number,
  next: number,
  called: string,
  found: AnimalAt['found'],
  date: CalendarDay | undefined,
): void {
  const farms = lines.farmsMeant();
  const stretch = stretchOf(lines.note, at, next);
  const several = found.length > 1;
  const near = several
    ? found.map(({ farm, record }) => ({
        label: `${record.animal.animal} on ${farm.farm.farm} (${record.slug}.md)`,
        text: `farm ${farm.slug} animal ${record.slug}.md`,
      }))
    : [
        ...bornNumber(farms, called).map(({ record, until }) => ({
          label: `${record.animal.animal}, which was ${called.trim()} until ${until}`,
          text: `animal ${record.slug}.md`,
        })),
        ...nearNumbers(farms, called.replaceAll(/\D/g, '')).map((number) => ({
          label: number,
          text: `animal ${number}`,
        })),
      ];
  const where = lines.farm && lines.farm !== 'not known' ? ` on ${lines.farm.farm.farm}` : '';
  const waiting: WaitingWords = {
    called,
    farm: lines.farm === 'not known' ? undefined : lines.farm?.slug,
    date,
    from: at,
    to: next,
    question: {
      ...stretch,
      id: several ? 'which-animal' : 'unknown-animal',
      ask: several
        ? 'more than one animal has this number'
        : lines.farm === 'not known'
          ? 'her farm is not known'
          : `there is no animal ${called}${where}`,
      mend: several
        ? 'name the farm above it, or the file, as in `animal 2086-2.md`'
        : lines.farm === 'not known'
          ? 'write the name of the farm above her as its file has it'
          : `correct the number, or open a case for her first: \`growdown start ${typeof lines.farm === 'object' ? lines.farm.slug : 'FARM'}/NUMBER\``,
      replace: { from: stretch.from, to: stretch.to },
      choices: lines.farm === 'not known' ? [] : near,
    },
  };
  lines.animals.push(waiting);
  lines.current = waiting;
}
