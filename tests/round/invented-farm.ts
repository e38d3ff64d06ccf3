import { formatProblem } from '../../src/problem/format-problem.js';
import { publishedPrior } from '../../src/growth/growth-of-animal.js';
import { readPractice } from '../../src/casefile/read-practice.js';
import type { CalendarDay } from '../../src/record/calendar-day.js';
import type { FarmWork } from '../../src/round/round-of.js';
import { workOutFarm } from '../../src/schedule/work-out-case.js';
import { caseFilesInMemory } from '../casefile/case-files-in-memory.js';

/** One invented farm out of its files' text, to be worked out for a day. */
export function farmOf(
  animals: Readonly<Record<string, string>>,
  farmKeys = '',
  slug = 'quernholt',
): (today: CalendarDay) => FarmWork {
  const name = slug.slice(0, 1).toUpperCase() + slug.slice(1);
  const files = caseFilesInMemory({
    [`cases/${slug}/farm.md`]: `---\nfarm: ${name}\ngait-scale: uk-0-3\nmilkings-a-day: 2\n${farmKeys}\n---\n`,
    ...Object.fromEntries(
      Object.entries(animals).map(([animal, text]) => [`cases/${slug}/${animal}.md`, text]),
    ),
  });
  return (today) => {
    const { practice, problems } = readPractice(files, 'cases', { today });
    const errors = problems.filter(({ severity }) => severity === 'error');
    const [record] = practice.farms;
    if (!record || errors.length > 0) throw new Error(errors.map(formatProblem).join('\n'));
    const business = { business: 'Quillfen Foot Trimming' };
    const priors = { priorOf: () => publishedPrior };
    return { record, business, cases: workOutFarm(record, { business, today, priors }) };
  };
}

/** A cow with a sole ulcer, last lifted a week before the demo's day, to be seen again on the day of the demo's visit unless said otherwise. */
export function oneCow(
  visitKeys: string,
  name = 'animal: "2041"',
  recheck = '2026-06-23',
): Record<string, string> {
  return {
    '2041': `---
casefile: 1
${name}
lesions:
  a: { code: SU, foot: LH, claw: outer, site: sole-heel junction }
visits:
  - date: 2026-06-09
    by: Orla Venn
    kind: first
    gait: 0
    found:
      a: { state: covered, length: 18, width: 14, tool: ruler }
${visitKeys}    recheck: ${recheck}
---
`,
  };
}
