import { episodesOf } from '../healing/episode.js';
import { type CalendarDay, daysBetween } from '../record/calendar-day.js';
import type { Animal } from '../record/animal.js';
import type { Photo } from '../record/visit.js';
import type { PhotoMoment } from '../record/words.js';
import type { BookPicture, BookPictures } from '../picture/fit-pictures.js';
import { given } from '../record/given.js';
import type { Words } from '../reference/words.js';

/** The same view of the same foot over time, of the same moment: after the trim, before it, or not said. */
export interface PictureStrip extends Pick<Photo, 'foot' | 'claw' | 'view'> {
  /** `after` also holds what was taken before the trim on a day that has an after: the two are side by side. */
  readonly moment?: PhotoMoment;
  /** Oldest first. */
  readonly days: readonly StripDay[];
}

export interface StripDay {
  readonly date: CalendarDay;
  /** Positions in `animal.visits`. */
  readonly visits: readonly number[];
  /** Before the trim first. */
  readonly photos: readonly Photo[];
  /** What it is among the days of its strip; absent for all others. These are the large ones. */
  readonly place?: 'first' | 'turned' | 'previous' | 'latest';
  /** Days since the picture before it. */
  readonly sinceBefore?: number;
  /** Days since the first of this lameness episode; absent for what is older than it. */
  readonly sinceFirst?: number;
}

interface Taken {
  readonly photo: Photo;
  readonly date: CalendarDay;
  readonly visit: number;
}

/**
 * Which pictures go side by side.
 *
 * Like with like: after the trim with after the trim, of one view of one claw. A picture from before the trim is
 * beside the after of its day; where there is none, in a strip of its own. The first is the first of the present run of
 * trouble, since a picture of another trouble years ago tells nothing about this one.
 *
 * Shape:   an animal's record → every picture of it, each in one place
 * Checked: tests/book/picture-strips.test.ts
 */
export function pictureStrips(
  animal: Animal,
  today: CalendarDay,
  /** The day the case turned: the picture taken then, or next after it, is between first and latest. */
  turned?: CalendarDay,
): readonly PictureStrip[] {
  const taken = animal.visits.flatMap(({ photos, date }, visit) =>
    (photos ?? []).map((photo): Taken => ({ photo, date, visit })),
  );
  const present = new Set(episodesOf(animal, today).at(-1)?.visits);
  return groupsOf(taken, viewOf).flatMap((ofView) => {
    const withAfter = new Set(ofView.flatMap(({ photo, date }) => (photo.when === 'after' ? [date] : [])));
    const momentOf = ({ photo, date }: Taken) =>
      photo.when === 'before' && withAfter.has(date) ? 'after' : photo.when;
    return groupsOf(ofView, (one) => momentOf(one) ?? '').map((ofStrip) => {
      const { foot, claw, view } = ofStrip[0]!.photo;
      const moment = momentOf(ofStrip[0]!);
      return { ...given({ foot, claw, view, moment }), days: stripDays(ofStrip, present, turned) };
    });
  });
}

function stripDays(
  taken: readonly Taken[],
  present: ReadonlySet<number>,
  turned: CalendarDay | undefined,
): StripDay[] {
  const days = groupsOf(taken, ({ date }) => date);
  const ofRun = days.findIndex((day) => day.some(({ visit }) => present.has(visit)));
  const first = Math.max(0, ofRun);
  const turn = turned === undefined ? -1 : days.findIndex((day, at) => at > first && day[0]!.date >= turned);
  const middle = turn > first && turn < days.length - 1 ? turn : days.length - 2;
  const place = (at: number): StripDay['place'] => {
    if (at === days.length - 1) return 'latest';
    if (at === first) return 'first';
    if (at !== middle) return undefined;
    return at === days.length - 2 ? 'previous' : 'turned';
  };
  const daysFrom = (at: number, date: CalendarDay) => daysBetween(days[at]![0]!.date, date);
  return days.map((day, at) => {
    const { date } = day[0]!;
    return {
      date,
      visits: [...new Set(day.map(({ visit }) => visit))],
      photos: day.map(({ photo }) => photo).toSorted((a, b) => orderOf(a) - orderOf(b)),
      ...given({
        place: place(at),
        sinceBefore: at > 0 ? daysFrom(at - 1, date) : undefined,
        sinceFirst: at > first ? daysFrom(first, date) : undefined,
      }),
    };
  });
}

const orderOf = ({ when }: Photo): number => (when === 'before' ? 0 : when === 'after' ? 2 : 1);

const viewOf = ({ photo: { foot, claw, view } }: Taken): string =>
  `${foot ?? ''} ${claw ?? ''} ${view ?? ''}`;

/** Things that have a key in common, in the order the keys first come. */
function groupsOf<T>(things: readonly T[], keyOf: (thing: T) => string): T[][] {
  const groups = new Map<string, T[]>();
  for (const thing of things) {
    const key = keyOf(thing);
    const group = groups.get(key);
    if (group) group.push(thing);
    else groups.set(key, [thing]);
  }
  return [...groups.values()];
}

/** What was done with the pictures of a book, in sentences, for whoever runs the program. */
export function whatWasDone(words: Words, { byFile, longestPx, madeSmaller, maxMb }: BookPictures): string[] {
  const say = (kind: BookPicture['kind']): string[] => {
    const count = [...byFile.values()].filter((one) => one.kind === kind).length;
    return count === 0 ? [] : [words.say(`picture.book.${kind}`, { count, mb: maxMb, px: longestPx })];
  };
  const made = say('made');
  return [
    ...made,
    ...(made.length > 0 && madeSmaller ? [words.say('picture.book.smaller', { mb: maxMb })] : []),
    ...say('left-out'),
    ...say('refused'),
    ...say('missing'),
  ];
}
