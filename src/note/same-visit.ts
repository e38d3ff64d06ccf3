import type { NoteVisit } from './note-reading.js';
import type { Visit } from '../record/visit.js';

/** A visit without lists and groups that hold nothing: an empty one says no more than an absent one. */
export function withoutEmpty(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(withoutEmpty);
  if (typeof value !== 'object' || value === null) return value;
  const kept = Object.entries(value)
    .map(([key, inner]) => [key, withoutEmpty(inner)] as const)
    .filter(([, inner]) => inner !== undefined && !isEmpty(inner));
  return Object.fromEntries(kept);
}

function isEmpty(value: unknown): boolean {
  return typeof value === 'object' && value !== null && Object.keys(value).length === 0;
}

/** What a note says of a day that is on file already: keys it says otherwise than the record, and keys the record lacks. */
export interface Difference {
  readonly path: string;
  readonly noted: unknown;
  readonly recorded: unknown;
}

/**
 * What a note says beyond a visit on file, or otherwise: nothing where all that it says is there.
 *
 * The record may hold more. Lists count as the same where every entry of the note's is in the record's; what was added
 * to the note on file by hand is no difference.
 *
 * Checked: tests/note/same-visit.test.ts
 */
export function beyondRecord(noted: NoteVisit, recorded: Visit): Difference[] {
  return differences('', withoutEmpty(noted), recorded);
}

function differences(path: string, noted: unknown, recorded: unknown): Difference[] {
  if (Array.isArray(noted)) {
    const list: readonly unknown[] = Array.isArray(recorded) ? recorded : [];
    return noted
      .filter((entry) => !list.some((other) => differences('', entry, other).length === 0))
      .map((entry) => ({ path, noted: entry as unknown, recorded }));
  }
  if (typeof noted === 'object' && noted !== null) {
    const group = typeof recorded === 'object' && recorded !== null ? recorded : {};
    return Object.entries(noted).flatMap(([key, value]) =>
      differences(path === '' ? key : `${path}.${key}`, value, (group as Record<string, unknown>)[key]),
    );
  }
  const sameText =
    path === 'note' && typeof noted === 'string' && typeof recorded === 'string' &&
    bareText(recorded).includes(bareText(noted)); // prettier-ignore
  return noted === recorded || sameText ? [] : [{ path, noted, recorded }];
}

function bareText(text: string): string {
  return text.replaceAll(/\s+/g, ' ').trim();
}
