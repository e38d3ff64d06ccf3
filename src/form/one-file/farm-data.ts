import type { VisitView } from '../form-view.js';
import type { OnHer } from '../visit-form.js';
import type { Animal } from '../../record/animal.js';
import type { GaitScale, Language, VisitKind } from '../../record/words.js';

/** One animal as the form in one file knows her. */
export interface AnimalData {
  readonly slug: string;
  readonly number: string;
  /** Whether something of the trimmer's is due, and the lines of her place in the list. */
  readonly isDue: boolean;
  readonly lines: readonly string[];
  readonly identity: readonly string[];
  readonly due: VisitView['due'];
  readonly last: string;
  /** What was read before and what is expected: shown when a visit is written down. */
  readonly before: readonly string[];
  readonly kind: VisitKind;
  /** Her lesions and marks, and of her visits what decides which words fit. */
  readonly record: Animal;
  readonly onHer: OnHer;
}

/** All that the form in one file carries beside its script, as plain JSON. */
export interface FarmData {
  readonly slug: string;
  readonly farm: string;
  /** The day it was made, which what is due and expected is from. */
  readonly made: string;
  readonly madeInWords: string;
  /** Who works here, where that is on file. */
  readonly trimmer: string;
  readonly gaitScale: GaitScale | '';
  readonly language: Language;
  /** Its words, by key. */
  readonly strings: Readonly<Record<string, string>>;
  /** Files of `shared/` the form is laid out by, by name. */
  readonly shared: Readonly<Record<string, unknown>>;
  readonly animals: readonly AnimalData[];
}
