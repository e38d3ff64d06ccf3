import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { composeBook } from '../../src/book/compose-book.js';
import { readPractice } from '../../src/casefile/read-practice.js';
import { pooledOn } from '../../src/herd/pooled-on.js';
import { composeMessage } from '../../src/post/sending/prepare-letter.js';
import { composeSummary } from '../../src/post/compose-summary.js';
import { calendarOf } from '../../src/round/calendar/calendar-of.js';
import { workOutFarm } from '../../src/schedule/work-out-case.js';
import { caseFilesInMemory } from '../casefile/case-files-in-memory.js';

const today = '2026-06-16';
/** Coined, and none a part of another or of any word a letter says. */
const names = ['quernholt', 'harrowmere', 'zwickelby', 'vorblatch', 'ubbleton', 'jorquix'];

interface Invented {
  readonly slug: string;
  readonly cows: readonly { readonly number: number; readonly gap: boolean; readonly cameFrom: boolean }[];
  readonly visit: boolean;
}

const invented: fc.Arbitrary<Invented[]> = fc
  .uniqueArray(fc.constantFrom(...names), { minLength: 2, maxLength: 4 })
  .chain((slugs) =>
    fc.tuple(
      ...slugs.map((slug) =>
        fc.record({
          slug: fc.constant(slug),
          cows: fc.uniqueArray(
            fc.record({
              number: fc.integer({ min: 100, max: 999 }),
              gap: fc.boolean(),
              cameFrom: fc.boolean(),
            }),
            { maxLength: 3, selector: ({ number }) => number },
          ),
          visit: fc.boolean(),
        }),
      ),
    ),
  );

/** Each farm says its own name wherever a record can hold one; cows come from one another's farms. */
function filesOf(farms: readonly Invented[]): Record<string, string> {
  return Object.fromEntries(
    farms.flatMap(({ slug, cows, visit }, at) => {
      const other = farms[(at + 1) % farms.length]!;
      const farm = `---
farm: ${slug}
holding: "of ${slug}"
address: "${slug} lane"
contact: { name: "Nan of ${slug}", email: "nan@${slug}.example" }
vet: { practice: "Vets of ${slug}" }
milkings-a-day: 2
gait-scale: uk-0-3
${visit ? 'next-visit: 2026-06-23\n' : ''}---

Told of ${slug}.
`;
      const cow = (number: number, gap: boolean, cameFrom: boolean) => `---
casefile: 1
animal: "${number}"
${cameFrom ? `earlier: [{ animal: "7", farm: ${other.slug}, until: 2025-01-01 }]\n` : ''}lesions:
  a: ${gap ? '{ code: WL, foot: LH, claw: outer, site: white line rear, line: heel }' : '{ code: SU, foot: LH, claw: outer, site: sole-heel junction }'}
visits:
  - date: 2026-05-26
    by: Orla of ${slug}
    kind: first
    gait: 2
    found:
      a: { state: open, ${gap ? 'top: 17, top-found: seen, wall: 43, tool: tape' : 'length: 18, width: 14, tool: ruler'} }
    products: [{ product: "from ${slug}", class: medicine, batch: "1", milk-days: 30, meat-days: 40, given-by: Nan }]
    vet: { asked: 2026-05-26, why: "${slug}" }
    note: "Seen at ${slug}."
---
`;
      return [
        [`cases/${slug}/farm.md`, farm],
        ...cows.map(({ number, gap, cameFrom }) => [
          `cases/${slug}/${number}.md`,
          cow(number, gap, cameFrom),
        ]),
      ];
    }),
  );
}

test("no farm's letter, book or calendar holds the name of another, whatever the business", () => {
  let told = 0;
  fc.assert(
    fc.property(invented, (farms) => {
      const { practice, problems } = readPractice(caseFilesInMemory(filesOf(farms)), 'cases', { today });
      expect(problems.filter(({ severity }) => severity === 'error')).toEqual([]);
      const pooled = pooledOn(practice, today);
      for (const farm of practice.farms) {
        const { business } = practice;
        const cases = workOutFarm(farm, { business, today, priors: pooled.priors });
        const { ics } = calendarOf({ record: farm, business, cases }, undefined, today);
        const { text, html, subject } = composeMessage({
          summary: composeSummary(practice, farm, today, pooled),
          to: [{ address: farm.farm.contact!.email! }],
          attached: [],
          day: today,
        });
        const book = JSON.stringify(composeBook(practice, farm, today, { pooled }));
        const all = [subject, text, html, ics.replaceAll('\r\n ', ''), book].join('\n').toLowerCase();
        for (const { slug } of practice.farms)
          expect([slug, all.includes(slug)]).toEqual([slug, slug === farm.slug]);
        told += farm.cases.length;
      }
    }),
    { numRuns: 12, seed: 20261125 },
  );
  expect(told).toBeGreaterThan(20);
});
