import { blockTimeline } from '../../healing/block-timeline.js';
import { footSeen } from '../../healing/foot-seen.js';
import type { GaitScore } from '../../healing/standing.js';
import type { Animal } from '../../record/animal.js';
import { daysBetween, type CalendarDay } from '../../record/calendar-day.js';
import { isLiftingVisit } from '../../record/lifting.js';
import { isHealed, type Visit } from '../../record/visit.js';
import type { AnimalSign, Foot, Sign } from '../../record/words.js';
import { fixedDays } from '../../reference/intervals.js';

/** A sign that is on a day: seen, and not over. Without a foot it is the animal's. */
export interface StandingSign {
  readonly sign: Sign | AnimalSign;
  readonly foot?: Foot;
  readonly lesion?: string;
  /** First and last day it was written. */
  readonly since: CalendarDay;
  readonly seen: CalendarDay;
}

interface Followed extends StandingSign {
  /** First lift that found it over, of a sign that needs two. */
  over?: CalendarDay;
  /** The vet, or the authority, has closed it; for a sign that stops work this and a whole foot are needed. */
  closed?: boolean;
}

/** What stops work on a farm. */
export const stopSigns: ReadonlySet<Sign | AnimalSign> = new Set(['blisters', 'mouth sores']);

/** Deep in the foot: one look without them is not enough. */
const twice: ReadonlySet<Sign | AnimalSign> = new Set([
  'toe turned up',
  'bone',
  'joint or tendon',
  'swollen above foot',
]);

/**
 * The signs in force after each visit of an episode, by the visit's position.
 *
 * Why this way: only hands on the foot clear a sign. It lasts until, at a later lift of that foot, it is written as gone, or
 * the foot is lifted without it on a day when she is scored below lame off the block; or until the vet's answer closes it. A
 * telephone report, a walk across the yard, another foot, a blank line clear nothing; a report may raise one. What is deep in
 * the foot takes two such lifts at least a week apart; blisters take the answer that closes them and the foot found whole.
 *
 * Checked: tests/schedule/standing-signs.test.ts
 */
export function standingSigns(
  animal: Animal,
  visits: readonly number[],
  scores: readonly GaitScore[],
): ReadonlyMap<number, readonly StandingSign[]> {
  const standing = new Map<string, Followed>();
  const after = new Map<number, readonly StandingSign[]>();
  for (const at of visits) {
    const visit = animal.visits[at];
    if (!visit) continue;
    const score = scores.find((one) => one.visit === at);
    const written = signsWritten(animal, visit);
    for (const [key, sign] of written)
      standing.set(key, { ...sign, since: standing.get(key)?.since ?? visit.date });
    for (const [key, followed] of standing) {
      if (written.has(key)) continue;
      if (closes(animal, visit, followed)) followed.closed = true;
      const foundOver = isFoundOver(animal, visit, score, followed);
      const first = followed.over;
      const isWeekOn = first !== undefined && daysBetween(first, visit.date) >= fixedDays('two-lifts-apart');
      if (foundOver) followed.over ??= visit.date;
      const over = stopSigns.has(followed.sign)
        ? followed.closed && followed.over
        : followed.closed || (foundOver && (isWeekOn || !twice.has(followed.sign)));
      if (over) standing.delete(key);
    }
    after.set(at, [...standing.values()]);
  }
  return after;
}

/** Everything written of a foot, of a lesion on it, of the animal, at one visit, by who it is of. */
function signsWritten(animal: Animal, visit: Visit): Map<string, StandingSign> {
  const { date } = visit;
  const written = new Map<string, StandingSign>();
  const take = (sign: Sign | AnimalSign, of: Pick<StandingSign, 'foot' | 'lesion'>) =>
    written.set(`${of.foot ?? ''} ${of.lesion ?? ''} ${sign}`, { sign, ...of, since: date, seen: date });
  for (const sign of visit.signs ?? []) take(sign, {});
  for (const [foot, { signs }] of Object.entries(visit.feet ?? {}))
    for (const sign of signs ?? []) take(sign, { foot: foot as Foot });
  for (const [lesion, { signs, lifted }] of Object.entries(visit.found ?? {})) {
    const foot = animal.lesions[lesion]?.foot;
    if (foot && lifted !== false) for (const sign of signs ?? []) take(sign, { foot, lesion });
  }
  return written;
}

/** Hands were on it and it was not there: written as gone, healed, covered, or she walks well off the block that day. */
function isFoundOver(
  animal: Animal,
  visit: Visit,
  score: GaitScore | undefined,
  { sign, foot, lesion }: StandingSign,
): boolean {
  if (!isLiftingVisit(visit)) return false;
  const walks = score !== undefined && isBelowLame(animal, score);
  if (!foot) return walks;
  if (!footSeen(animal, visit, foot)) return false;
  const gone = [
    ...(visit.feet?.[foot]?.gone ?? []),
    ...Object.entries(visit.found ?? {}).flatMap(([name, found]) =>
      (lesion === undefined ? animal.lesions[name]?.foot === foot : name === lesion)
        ? (found.gone ?? [])
        : [],
    ),
  ];
  if (gone.some((one) => one === sign)) return true;
  const found = lesion === undefined ? undefined : visit.found?.[lesion];
  const covered = found?.state === 'covered' && (sign === 'exposed corium' || sign === 'proud flesh');
  return isHealed(found) || covered || walks;
}

/**
 * Scored below lame, off the block, with no pain relief in the three days before: a score that clears.
 * `offFor`: and so many days after the last block came off.
 */
export function isBelowLame(animal: Animal, score: GaitScore, offFor = 0): boolean {
  if (score.block !== 'off' || score.lame || isRelieved(animal, score)) return false;
  return blockTimeline(animal, score.date).spans.every(
    ({ end }) => end !== undefined && daysBetween(end.by, score.date) >= offFor,
  );
}

/** Pain relief given in the three days before a score makes it another variable, as a block does. */
export function isRelieved(animal: Animal, { date, visit: scored }: GaitScore): boolean {
  return animal.visits.some((visit, at) => {
    const days = daysBetween(visit.date, date);
    return (
      visit['pain-relief'] === 'given' && at < scored && days <= fixedDays('pain-relief-acts') && days >= 0
    );
  });
}

/** What an answer, or the question it is to, names; empty where neither says. */
export function aboutOf(animal: Animal, answer: NonNullable<Visit['vet-answer']>): readonly string[] {
  const asked = animal.visits.find(({ vet }) => vet?.asked === answer.to)?.vet;
  return [...(answer.about ?? []), ...(asked?.about ?? [])];
}

function closes(animal: Animal, visit: Visit, { sign, foot, lesion }: StandingSign): boolean {
  const answer = visit['vet-answer'];
  if (answer?.closes !== true) return false;
  return aboutOf(animal, answer).some((one) => one === sign || one === foot || one === lesion);
}
