import { expect, test } from 'vitest';
import { wantedBy } from '../../src/casefile/wanted.js';
import { inFlow } from '../../src/keep/text/write-value.js';
import { visit } from '../../src/record/visit.js';
import { addVisit } from '../../src/keep/add-visit.js';
import type { VisitDraft } from '../../src/keep/visit-draft.js';
import { animalText, farmText } from '../casefile/generated-cases.js';
import { caseFilesInMemory } from '../casefile/case-files-in-memory.js';

const today = '2026-11-25';

function added(text: string, draft: VisitDraft, slug = '2086', evenSo?: true): string {
  const files = caseFilesInMemory({
    'cases/quernholt/farm.md': farmText,
    [`cases/quernholt/${slug}.md`]: text,
  });
  const keeping = { files, cases: 'cases', today, ...(evenSo ? { evenSo } : {}) };
  const worked = addVisit(keeping, 'quernholt', slug, draft);
  if (worked.outcome !== 'change') throw new Error(JSON.stringify(worked, null, 2));
  expect(worked.change.files).toHaveLength(1);
  return new TextDecoder('utf-8', { ignoreBOM: true }).decode(worked.change.files[0]!.after);
}

const recheck: VisitDraft = {
  by: 'Orla Venn',
  date: '2026-02-03',
  kind: 'recheck',
  gait: 1,
  found: {
    a: { state: 'open', top: 21, 'top-found': 'seen', wall: 43, tool: 'ruler', signs: ['undermined'] },
  },
  trimmed: ['LH'],
  blocks: [{ foot: 'LH', claw: 'inner', event: 'fitted', material: 'wood' }],
  vet: { asked: '2026-02-03', why: 'heat #2: "so"' },
  note: 'Better.',
};

const inLines = `  - date: 2026-02-03
    by: Orla Venn
    kind: recheck
    gait: 1
    found:
      a: { state: open, top: 21, top-found: seen, wall: 43, tool: ruler, signs: [undermined] }
    trimmed: [LH]
    blocks:
      - { foot: LH, claw: inner, event: fitted, material: wood }
    vet: { asked: 2026-02-03, why: "heat #2: \\"so\\"" }
    note: "Better."
`;

test('a visit goes behind the last one, in lines like those of the file', () => {
  expect(added(animalText, recheck)).toBe(
    animalText.replace('---\n', '---\n').replace(/---\n$/, `${inLines}---\n`),
  );
});

test('a visit of an earlier day goes before the first', () => {
  const earlier = { ...recheck, date: '2026-01-02', vet: undefined as never };
  expect(added(animalText, earlier, '2086', true)).toContain(
    'visits:\n  - date: 2026-01-02\n    by: Orla Venn\n',
  );
});

test('where visits are written in both forms, it takes that of the one it goes behind', () => {
  const report = '  - { date: 2025-12-30, by: Orla Venn, kind: report, gait: 2 }\n';
  const linesLast = animalText.replace('visits:\n', `visits:\n${report}`);
  expect(added(linesLast, recheck)).toBe(linesLast.replace(/---\n$/, `${inLines}---\n`));
  const oneLast = animalText.replace(/---\n$/, `${report.replace('2025-12-30', '2026-01-20')}---\n`);
  const draft: VisitDraft = { date: '2026-02-03', by: 'Orla Venn', kind: 'report', gait: 1 };
  expect(added(oneLast, draft)).toBe(
    oneLast.replace(/---\n$/, '  - { date: 2026-02-03, by: Orla Venn, kind: report, gait: 1 }\n---\n'),
  );
});

test('keys are in the order of the case format, one it does not know last', () => {
  const written = inFlow({ gaitt: 1, gait: 1, date: '2026-02-03' }, wantedBy(visit));
  expect(written).toBe('{ date: 2026-02-03, gait: 1, gaitt: 1 }');
});
