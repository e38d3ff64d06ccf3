import type { CaseFiles } from '../casefile/case-files.js';
import { asIf } from '../casefile/as-if.js';
import { business } from '../record/business.js';
import { farm } from '../record/farm.js';
import { archiveText } from '../reference/archive-text.js';
import { withValues } from './with-values.js';

/** Case files as they lie, but for the mail addresses, telephone numbers and postal addresses under their keys. */
export function withoutContacts(files: CaseFiles, cases: string, farms: readonly string[]): CaseFiles {
  const { contacts, 'left-out': value } = archiveText;
  const blank = (keys: readonly (readonly string[])[]) => keys.map((at) => ({ at, value }));
  return asIf(files, [
    ...withValues(files, `${cases}/business.md`, blank(contacts.business), business),
    ...farms.flatMap((slug) => withValues(files, `${cases}/${slug}/farm.md`, blank(contacts.farm), farm)),
  ]);
}
