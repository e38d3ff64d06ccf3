import type { Animal } from '../../record/animal.js';
import type { CalendarDay } from '../../record/calendar-day.js';
import type { Photo } from '../../record/visit.js';
import { placeInWords, dayInWords, sentenceCase } from '../../words/day-and-place.js';
import type { Words } from '../../reference/words.js';
import type { SheetAbout } from './sheet-page.js';

export interface LastPicture {
  readonly photo: Photo;
  readonly day: CalendarDay;
}

/** A picture made ready, in base64. */
export interface SheetPicture {
  readonly base64: string;
  readonly widthPx: number;
  readonly heightPx: number;
}

/** Her last pictures, the likeliest first: the latest day, of the foot that leads her case, after the trim. */
export function lastPictures(animal: Animal, leading: string | undefined): LastPicture[] {
  const lesion = leading === undefined ? undefined : animal.lesions[leading];
  const rank = ({ foot, claw, when }: Photo): number =>
    (foot === lesion?.foot ? 4 : 0) + (claw === lesion?.claw ? 2 : 0) + (when === 'after' ? 1 : 0);
  return animal.visits
    .toReversed()
    .flatMap(({ photos = [], date }) =>
      photos.toSorted((a, b) => rank(b) - rank(a)).map((photo) => ({ photo, day: date })),
    );
}

export function pictureView(
  words: Words,
  animal: string,
  { photo, day }: LastPicture,
  { base64, widthPx, heightPx }: SheetPicture,
): NonNullable<SheetAbout['picture']> {
  const view = photo.view && words.say(`vocabulary.view.${photo.view}`);
  const place = photo.foot && placeInWords(words, photo.foot, photo.claw);
  const what =
    view && place
      ? words.say('sheet.picture-what', { place, view })
      : (place ?? view ?? words.say('sheet.picture-any'));
  const said = { animal, day: dayInWords(words, day), what };
  return {
    source: `data:image/jpeg;base64,${base64}`,
    width: widthPx,
    height: heightPx,
    alt: words.say('sheet.picture-alt', said),
    caption: sentenceCase(words.say('sheet.picture', said)),
  };
}
