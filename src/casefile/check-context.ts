import type { CalendarDay } from '../record/calendar-day.js';
import type { Farm } from '../record/farm.js';
import type { PictureLook } from './picture-look.js';

/** What a check of `business.md` may know beside the record. */
export interface BusinessCheckContext {
  readonly today: CalendarDay;
}

/** What a check of one farm may know beside the farm itself. */
export interface FarmCheckContext {
  readonly today: CalendarDay;
  readonly farmSlug: string;
  /** What stands under a name inside the farm's folder, as written in the record. */
  readonly picture: (path: string) => PictureLook;
}

/** What a check of one animal may know beside the animal itself. */
export interface AnimalCheckContext extends FarmCheckContext {
  /** Undefined where the farm's own file has an error: then nothing can be said about its scales. */
  readonly farm: Farm | undefined;
  /** The file's name without `.md`. */
  readonly animalSlug: string;
}
