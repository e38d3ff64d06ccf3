import type { JobGroup, JobList, JobRow } from '../book/first-pages-data.js';
import type { Words } from '../reference/words.js';
import type { MailEntry, MailSection } from './mail-summary.js';

/** The book's list of jobs as a letter tells it: what by when, then the animals that need it. */
export function jobsSection(words: Words, { heading, lead, calving, table }: JobList): MailSection {
  return {
    heading,
    lead: [lead, ...(calving ? [calving] : []), ...(table ? [table.caption] : [])],
    groups: (table?.groups ?? []).map((group) => ({
      heading: group.heading,
      entries: group.rows.map((row) => entryOf(words, row, group.late)),
    })),
  };
}

/** What stands before all else, in short; undefined where nothing does. */
export function jobBeforeAllElse(words: Words, { table }: JobList): string | undefined {
  const heading = words.say('jobs.group.now');
  const isNow = (group: JobGroup): boolean => group.heading === heading;
  return table?.groups.find(isNow)?.rows[0]?.what;
}

/** What is late begins with who, since it stands under no one's name. */
function entryOf(words: Words, { by, note, what, animals }: JobRow, late: boolean): MailEntry {
  const named = animals.map(({ text, after = '', marks }) =>
    words.say(marks === '' ? 'mail.animal' : 'mail.animal-marked', { number: text, case: after, marks }),
  );
  const isBare = animals.every(({ marks }) => marks === '');
  return { title: titleOf(words, { by, note, what }, late), lines: isBare ? [named.join(', ')] : named };
}

function titleOf(
  words: Words,
  { by, note, what }: { readonly by: string; readonly note: string | undefined; readonly what: string },
  late: boolean,
): string {
  if (late) return words.say('mail.job-late', { by, what });
  return note === undefined
    ? words.say('mail.job', { by, what })
    : words.say('mail.job-noted', { by, note, what });
}
