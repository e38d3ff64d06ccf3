import type { Animal } from '../../src/record/animal.js';
import type { FormFor } from '../../src/form/visit-form.js';

/** One animal with a lesion of each family, one of them healed, and a mark; nobody's, and made for tests. */
export const animal: Animal = {
  casefile: 1,
  animal: '2086',
  handling: 'kicks left',
  lesions: {
    a: { code: 'WL', foot: 'LH', claw: 'outer', site: 'white line rear', line: 'heel' },
    b: { code: 'SU', foot: 'RF', claw: 'inner', site: 'sole-heel junction' },
    c: { code: 'DD', foot: 'RH', site: 'skin behind heels' },
    d: { code: 'SH', foot: 'RF', claw: 'outer', site: 'sole' },
    e: { code: 'HFH', foot: 'LF', claw: 'inner', line: 'dorsal' },
  },
  marks: { m1: { foot: 'LF', claw: 'inner', line: 'dorsal' } },
  visits: [
    {
      date: '2026-01-06',
      by: 'Orla Venn',
      kind: 'first',
      gait: 2,
      found: {
        a: { state: 'open', top: 17, 'top-found': 'seen', wall: 43, tool: 'tape' },
        b: { state: 'open', length: 18, width: 14, tool: 'ruler' },
        c: { stage: 'M2' },
        d: { state: 'present' },
        e: { state: 'healed' },
      },
    },
  ],
};

export const made: FormFor = { animal, gaitScale: 'uk-0-3' };
export const today = '2026-11-25';
