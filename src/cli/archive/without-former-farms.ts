import type { CaseFiles } from '../../casefile/case-files.js';
import { asIf } from '../../casefile/as-if.js';
import { animal } from '../../record/animal.js';
import type { FarmRecord } from '../../record/practice.js';
import { archiveText } from '../../reference/archive-text.js';
import { withValues } from './with-values.js';

/** Case files as they lie, but for the names of other farms that animals came from: one farm's archive tells of no other. */
export function withoutFormerFarms(files: CaseFiles, cases: string, farms: readonly FarmRecord[]): CaseFiles {
  const value = archiveText['former-farm'];
  return asIf(
    files,
    farms.flatMap(({ slug, cases: records }) =>
      records.flatMap((record) => {
        const others = (record.animal.earlier ?? []).flatMap((one, index) =>
          one.farm === undefined || one.farm === slug ? [] : [{ at: ['earlier', index, 'farm'], value }],
        );
        return withValues(files, `${cases}/${slug}/${record.slug}.md`, others, animal);
      }),
    ),
  );
}
