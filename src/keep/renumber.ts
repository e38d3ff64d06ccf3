import { slugFrom } from '../casefile/case-folder-names.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { Keeping, Worked } from './change.js';
import { cannot } from './change.js';
import { openAnimal } from './find-kept.js';
import { changeOfFile, workedOut } from './work-out.js';

/**
 * An animal with a new number on her farm: her file takes its name, and the old number goes under `earlier`.
 *
 * Shape:   `until` is the last day of the old number
 * Error:   a file of the new name is left alone
 */
export function renumber(
  keeping: Keeping,
  farm: string,
  animal: string,
  { number, until }: { readonly number: string; readonly until: CalendarDay },
): Worked {
  const opened = openAnimal(keeping, farm, animal);
  if (opened.outcome !== 'open') return opened;
  const { kept } = opened;
  const old = kept.record.animal;
  const slug = slugFrom(number);
  if (slug === '' || number === old)
    return cannot(
      `\`${number}\` is no new number for her, expected one with letters or digits other than ${old}`,
    );
  const index = kept.record.earlier?.length ?? 0;
  const change = changeOfFile(
    {
      kept,
      steps: [
        { put: 'entry', path: ['earlier'], index, value: { animal: old, until } },
        { put: 'value', path: ['animal'], value: number },
      ],
    },
    keeping,
  );
  if ('outcome' in change) return change;
  const what = `number ${number} for ${old}`;
  const renamed = (name: string): string => name.replace(/[^/]+$/, `${slug}.md`);
  const [path, file] = [renamed(kept.path), renamed(kept.file)];
  if (path === kept.path) return workedOut({ what, farms: [farm], files: [change] }, keeping);
  if (keeping.files.look(path))
    return cannot(
      `${file} is there already and was left as it is, expected no file of that name; look whose it is, and give her a number of her own`,
    );
  const files = [
    { file, path, before: undefined, after: change.after },
    { file: kept.file, path: kept.path, before: kept.bytes, after: undefined },
  ];
  return workedOut({ what, farms: [farm], files }, keeping);
}
