import { pictureStrips } from '../book/picture-strips.js';
import type { LesionStanding } from '../healing/standing.js';
import type { Animal } from '../record/animal.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { Photo } from '../record/visit.js';
import { placeInWords } from '../words/day-and-place.js';
import type { HandoverOf } from './handover-page.js';

/** The latest picture of a lesion's claw. */
export interface LatestPicture {
  readonly lesion: string;
  readonly photo: Photo;
  readonly day: CalendarDay;
}

/**
 * The latest picture of each lesion, one picture once: of its foot and, where both say so, its claw; of one day the one
 * after the trim.
 *
 * Checked: tests/handover/lesion-pictures.test.ts
 */
export function latestPictures(
  animal: Animal,
  lesions: readonly Pick<LesionStanding, 'lesion'>[],
  today: CalendarDay,
): LatestPicture[] {
  const strips = pictureStrips(animal, today);
  const latest = lesions.flatMap(({ lesion }): LatestPicture[] => {
    const place = animal.lesions[lesion];
    const days = strips
      .filter(({ foot, claw }) => foot === place?.foot && (!claw || !place?.claw || claw === place.claw))
      .flatMap(({ days: ofStrip }) => ofStrip)
      .filter(({ date }) => date <= today)
      .sort((a, b) => (a.date < b.date ? -1 : a.date > b.date ? 1 : rank(a.photos) - rank(b.photos)));
    const last = days.at(-1);
    const photo = last?.photos.at(-1);
    return last && photo ? [{ lesion, photo, day: last.date }] : [];
  });
  return latest.filter(({ photo }, at) => latest.findIndex((one) => one.photo.file === photo.file) === at);
}

/** Those after the trim go last, to be taken. */
function rank(photos: readonly Photo[]): number {
  return photos.at(-1)?.when === 'after' ? 1 : 0;
}

/** The pictures a page has room for, those that could be made ready. */
export function picturesOnPage(of: HandoverOf, latest: readonly LatestPicture[]) {
  const { words, say, wholeDay, animal, level, firstOf, pictures } = of;
  const ready = latest.flatMap((one) => {
    const picture = pictures.get(one.photo.file);
    return picture ? [{ ...one, picture }] : [];
  });
  return firstOf('pictures', ready, level.pictures).map(({ lesion, photo, day, picture }) => {
    const { view, foot, claw } = photo;
    const place = foot ? placeInWords(words, foot, claw) : '';
    const what = words.commas([place, view && words.say(`vocabulary.view.${view}`)]);
    const said = { lesion, animal: animal.animal, what, day: wholeDay(day) };
    return {
      lesion,
      source: `data:image/jpeg;base64,${picture.base64}`,
      width: picture.widthPx,
      height: picture.heightPx,
      alt: say('pictures.alt', said),
      caption: say('pictures.caption', said),
    };
  });
}
