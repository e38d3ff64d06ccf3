import type { BookPicture, BookPictures } from '../picture/fit-pictures.js';
import { pictureNumbers } from '../reference/numbers.js';
import type { Animal } from '../record/animal.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { Photo } from '../record/visit.js';
import { dayInWords, placeInWords, sentenceCase } from '../words/day-and-place.js';
import { type Words, told } from '../reference/words.js';
import { given } from '../record/given.js';
import { pictureStrips, type PictureStrip, type StripDay } from './picture-strips.js';
import { phraseOf, photoInWords, nameInBook } from './work-in-words.js';
import type { Claw, Foot } from '../record/words.js';

const lengths = ['top', 'wall', 'width', 'length', 'depth', 'distance'] as const;

/** What was found and measured at some visits on one claw, or on a whole foot, a line for each lesion and mark. */
function measuredAtPlace(
  words: Words,
  animal: Animal,
  visits: readonly number[],
  foot: Foot,
  claw: Claw | undefined,
): string[] {
  const isHere = (name: string): boolean => {
    const place = animal.lesions[name] ?? animal.marks?.[name];
    return place?.foot === foot && (!claw || !place.claw || place.claw === claw);
  };
  return visits.flatMap((at) =>
    Object.entries(animal.visits[at]?.found ?? {})
      .filter(([name]) => isHere(name))
      .map(([name, found]) =>
        words.say('book.animal.of-lesion', {
          name: nameInBook(words, animal, name, at),
          sentence: words.semicolons([
            found.lifted === false && words.say('key.found.lifted.log.false'),
            ...(['state', 'stage', ...lengths] as const).map((key) =>
              phraseOf(words, `visits.found.${key}`, found[key]),
            ),
          ]),
        }),
      ),
  );
}

/** Every picture of an animal, each where it can be compared. */
export type PictureSection = NonNullable<ReturnType<typeof composePictures>>;

/**
 * Every picture taken of an animal, set beside those it can be compared with.
 *
 * Whatever became of the picture itself, its file and all that was written about it are at its place.
 */
export function composePictures(
  words: Words,
  id: string,
  animal: Animal,
  today: CalendarDay,
  { pictures, turned }: { pictures?: BookPictures | undefined; turned?: CalendarDay | undefined } = {},
) {
  const strips = pictureStrips(animal, today, turned);
  if (strips.length === 0) return undefined;
  const several = strips.some(({ days }) => days.length > 1);
  return {
    id: `${id}-photos`,
    heading: words.say('picture.heading'),
    lead: words.say(several ? 'picture.lead' : 'picture.lead-one'),
    strips: strips.map((strip) => {
      const compose = (day: StripDay) => pictureDay(words, animal, strip, day, pictures);
      const large = strip.days.filter(({ place }) => place !== undefined);
      const rest = strip.days.filter(({ place }) => place === undefined);
      const summary = words.say('picture.more', { count: rest.length });
      return {
        heading: headingOf(words, strip),
        columns: columnsFor(large.flatMap(({ photos }) => photos).length),
        large: large.map(compose),
        ...(rest.length > 0 ? { more: { summary, days: rest.map(compose) } } : {}),
      };
    }),
  };
}

/** Two or three across: an even number of pictures fills rows of two, so that a before and its after stay in one row. */
function columnsFor(pictures: number): 1 | 2 | 3 {
  if (pictures === 1) return 1;
  return pictures % 2 === 0 ? 2 : 3;
}

/** Such as: Left hind, outer claw: outside wall, after the trim. */
function headingOf(words: Words, { foot, claw, view, moment }: PictureStrip): string {
  const place = foot
    ? placeInWords(words, foot, claw)
    : claw
      ? words.say(`vocabulary.claw.${claw}`)
      : words.say('picture.no-place');
  const what = words.say('picture.strip', {
    place: sentenceCase(place),
    view: view ? words.say(`vocabulary.view.${view}`) : words.say('picture.no-view'),
  });
  return words.say('picture.strip-moment', {
    what,
    moment: moment ? words.say(`vocabulary.moment.${moment}`) : words.say('picture.no-moment'),
  });
}

/** All pictures of one view on one day. */
export type PictureDay = ReturnType<typeof pictureDay>;

function pictureDay(
  words: Words,
  animal: Animal,
  { foot, claw, days }: PictureStrip,
  day: StripDay,
  pictures: BookPictures | undefined,
) {
  const { date, photos, place, sinceBefore, sinceFirst } = day;
  const since = words.semicolons([
    sinceBefore !== undefined &&
      sinceBefore !== sinceFirst &&
      words.say('picture.since-before', { count: sinceBefore }),
    sinceFirst !== undefined && words.say('picture.since-first', { count: sinceFirst }),
  ]);
  const measured = foot ? measuredAtPlace(words, animal, day.visits, foot, claw) : [];
  return {
    day: dayInWords(words, date),
    ...given({
      /** First, turning point, previous, latest. */
      place: place && days.length > 1 ? words.say(`picture.place.${place}`) : undefined,
      /** Days after the picture before it and after the first. */
      since: since || undefined,
    }),
    /** That day's findings at this place. */
    measured: foot && measured.length === 0 ? [words.say('picture.not-measured')] : measured,
    shots: photos.map((photo) => shown(words, animal, photo, day, pictures)),
  };
}

/** One picture at its place, or what is said where it cannot be shown. */
function shown(
  words: Words,
  animal: Animal,
  photo: Photo,
  { date, place, photos }: StripDay,
  pictures: BookPictures | undefined,
) {
  const { file, when, caption } = photo;
  const picture = pictures?.byFile.get(file);
  const made = picture?.kind === 'made' ? picture : undefined;
  const shows = photoInWords(words, photo).replaceAll('; ', ', ') || words.say('picture.no-view');
  const moment = words.say(when ? `vocabulary.moment.${when}` : 'picture.moment-not-written');
  return {
    /** Which picture belongs here; nothing of it is printed. */
    of: { file, day: date, large: place !== undefined },
    file: words.say('picture.file', { file }),
    ...given({
      /** Before or after the trim, where several of one day appear together. */
      moment: photos.length > 1 ? moment : undefined,
      caption: caption ? told(caption) : undefined,
      image: made && {
        source: `data:image/jpeg;base64,${made.base64}`,
        width: made.widthPx,
        height: made.heightPx,
        alt: words.say('picture.alt', { animal: animal.animal, shows, day: dayInWords(words, date) }),
      },
      instead: picture?.kind === 'made' ? undefined : insteadOf(words, picture, pictures?.maxMb),
    }),
  };
}

/** What is shown in place of a picture. */
export function insteadOf(
  words: Words,
  picture: Exclude<BookPicture, { kind: 'made' }> | undefined,
  mb = pictureNumbers.bookMb.value,
): string {
  if (!picture) return words.say('picture.instead.not-asked');
  if (picture.kind === 'refused')
    return words.say(`picture.refused.${picture.why}`, {
      megapixels: pictureNumbers.limitMegapixels.value,
    });
  return words.say(`picture.instead.${picture.kind}`, { mb });
}
