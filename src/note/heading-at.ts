import type { FarmRecord } from '../record/practice.js';
import { beginAnimal } from './begin-animal.js';
import { animalAt, farmAt, visitDay } from './heading.js';
import { nameSaid } from './name-said.js';
import type { NoteLines } from './note-lines.js';
import { isFiller, skip, stretchOf } from './note-text.js';
import { phraseAt } from './phrase.js';

/** The farm, the day, who did the work, an animal's number. */
export function headingAt(lines: NoteLines, at: number, begins: boolean): number | undefined {
  const { tokens } = lines.note;
  const fresh = begins || isHeading(lines);
  const farm = farmAt(lines.context, tokens, at);
  if (farm && (fresh || headingFollows(lines, farm.next))) return startFarm(lines, farm.farm, at, farm.next);
  if (begins) {
    const unknown = unknownFarm(lines, at);
    if (unknown !== undefined) return unknown;
  }
  if (begins || lines.current === undefined) {
    const day = visitDay(lines.context, tokens, at);
    if (day && (lines.current === undefined || isAlone(lines, day.next))) {
      lines.flush();
      lines.current = undefined;
      lines.days = day.days;
      lines.say(at, day.next, day.days.join(' or ') || undefined);
      return day.next;
    }
  }
  const animal = animalAt(lines.farmsMeant(), tokens, at, fresh);
  if (animal && (lines.run.length === 0 || !fresh || begins)) return beginAnimal(lines, at, animal);
  if (lines.current !== undefined) return undefined;
  const by = phraseAt(tokens, at);
  const name = by?.kind === 'by' ? nameSaid(tokens, by.next, lines.people) : undefined;
  if (!name) return undefined;
  lines.by = name.name;
  lines.say(at, name.next, `by ${name.name}`);
  return name.next;
}

function isHeading(lines: NoteLines): boolean {
  return lines.current === undefined;
}

/** A day, an animal or the end of the line behind a farm's name make it a heading in the middle of a line too. */
function headingFollows(lines: NoteLines, at: number): boolean {
  const next = skip(lines.note.tokens, at);
  return (
    visitDay(lines.context, lines.note.tokens, next) !== undefined ||
    animalAt(lines.context.farms, lines.note.tokens, next, true) !== undefined
  );
}

function isAlone(lines: NoteLines, at: number): boolean {
  const { tokens } = lines.note;
  const next = skip(tokens, at);
  const kind = tokens[next]?.kind;
  return (
    kind === undefined ||
    kind === 'line' ||
    kind === 'stop' ||
    farmAt(lines.context, tokens, next) !== undefined ||
    animalAt(lines.farmsMeant(), tokens, next, true) !== undefined
  );
}

function startFarm(lines: NoteLines, farm: FarmRecord, at: number, next: number): number {
  lines.flush();
  lines.current = undefined;
  lines.farm = farm;
  lines.say(at, next, `farm ${farm.farm.farm}`);
  return next;
}

/** A line of strange words and a day is the heading of a farm that is not there. */
function unknownFarm(lines: NoteLines, at: number): number | undefined {
  const { tokens } = lines.note;
  let next = at;
  while (tokens[next]?.kind === 'word' && !phraseAt(tokens, next) && !visitDay(lines.context, tokens, next))
    next += 1;
  const words = tokens.slice(at, next);
  if (words.length === 0 || words.length > 4 || words.every(isFiller)) return undefined;
  const day = visitDay(lines.context, tokens, skip(tokens, next));
  if (!day || !isAlone(lines, day.next)) return undefined;
  lines.flush();
  lines.current = undefined;
  lines.farm = 'not known';
  const stretch = stretchOf(lines.note, at, next);
  lines.questions.push({
    ...stretch,
    id: 'unknown-farm',
    ask: `there is no farm called ${stretch.text}`,
    mend: 'write the farm’s name as its file has it',
    replace: { from: stretch.from, to: stretch.to },
    choices: lines.context.farms.map((farm) => ({ label: farm.farm.farm, text: farm.farm.farm })),
  });
  return next;
}
