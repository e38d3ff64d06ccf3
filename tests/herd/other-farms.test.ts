import { expect, test } from 'vitest';
import { auditFiles } from '../../src/audit/audit-files.js';
import { composeAnnex, renderAnnex } from '../../src/book/annex.js';
import { renderBook } from '../../src/book/render-book.js';
import { renderSheet } from '../../src/form/sheet/sheet-page.js';
import { renderHandover } from '../../src/handover/render-handover.js';
import { quarterEnd } from '../../src/growth/learning/priors-for.js';
import { summaryHtml, summaryText } from '../../src/post/mail-summary.js';
import { addDays } from '../../src/record/calendar-day.js';
import type { Animal } from '../../src/record/animal.js';
import type { Practice } from '../../src/record/practice.js';
import { outputsOf } from '../laws/outputs-of-a-day.js';
import { cow, herd, practiceOf, visit } from './invented-herd.js';

const today = '2026-06-16';
const lastDay = quarterEnd(today);
const farms = ['quernholt', 'harrowmere', 'sallowby', 'nettlecombe'];

/** A cow measured twice, found healed where she is an even one, and lame until then; the last visit is in February. */
function measured(at: number): Animal {
  const gap = (top: number) => ({ a: { state: 'open', top, 'top-found': 'seen', wall: 75, tool: 'ruler' } }) as const; // prettier-ignore
  return cow(`${100 + at}`, [
    visit(addDays('2025-08-01', 3 * at), { kind: 'first', gait: 2, found: gap(10 + at) }),
    visit(addDays('2025-10-20', at), { gait: 2, found: gap(24 + 2 * at) }),
    visit(addDays('2026-02-01', at), at % 2 ? { gait: 2, found: gap(46 + at) } : { gait: 0, found: { a: { state: 'healed' } } }), // prettier-ignore
  ]);
}

/** Four farms of six cows; the first cow of quernholt stood on harrowmere, where her file still lies and was written in once more. */
function practiceWith(change: (first: Animal) => readonly Animal[]): Practice {
  const moved: Animal = { ...measured(7), tag: 'UK 000123 402086' };
  const left = { ...moved, animal: '909', visits: [...moved.visits, visit('2026-04-20', { gait: 1 })] };
  return practiceOf(
    ...farms.map((slug, farm) => {
      const own = [1, 2, 3, 4, 5, 6].map((at) => measured(at + farm));
      if (slug === 'quernholt') return herd(slug, [...change(moved), ...own.slice(0, 5)]);
      return herd(slug, slug === 'harrowmere' ? [...own.slice(0, 5), left] : own);
    }),
  );
}

const before = (animal: Animal) => [animal];

/** All that the other farms are given on the day, by farm and paper. */
async function papersOf(practice: Practice): Promise<Record<string, string>> {
  const outputs = practice.farms
    .filter(({ slug }) => slug !== 'quernholt')
    .map((farm) =>
      outputsOf({ ...practice, farms: [farm, ...practice.farms.filter((one) => one !== farm)] }, today),
    );
  const books = await Promise.all(outputs.map(({ book }) => renderBook(book)));
  const annexes = outputs.map(({ practice: all, farm, pooled }) =>
    renderAnnex(composeAnnex(all, farm, today, { read: () => undefined, pooled })),
  );
  return Object.fromEntries(
    outputs.flatMap(({ farm, pooled: { priors }, summary, sheet, animals, ics, book: { slug } }, at) => [
      [`${slug} book`, books[at]!],
      [`${slug} annex`, annexes[at]!],
      [`${slug} letter`, summaryText(summary) + summaryHtml(summary)],
      [`${slug} calendar`, ics],
      [`${slug} sheet`, renderSheet(sheet)],
      ...Object.entries(
        auditFiles(farm, { from: '2025-07-01', to: today }, { business: {}, today, priors }).files,
      ).map(([name, text]) => [`${slug} audit ${name}`, text]),
      ...animals.map(({ slug: animal, handover }) => [
        `${slug} handover ${animal}`,
        renderHandover(handover),
      ]),
    ]),
  );
}

const added = (more: Partial<Parameters<typeof visit>[1]>, lesions: Animal['lesions'] = {}) => (day: string) => (first: Animal) => [
  { ...first, lesions: { ...first.lesions, ...lesions }, visits: [...first.visits, visit(day, more)] },
]; // prettier-ignore

const changes: Record<string, (day: string) => (first: Animal) => readonly Animal[]> = {
  'a gap is found healed': added({ found: { a: { state: 'healed' } } }),
  'a gap is measured': added({ found: { a: { state: 'open', top: 70, 'top-found': 'seen', wall: 75, tool: 'ruler' } } }), // prettier-ignore
  'her walk is scored': added({ gait: 0 }),
  'a second lesion is found': added({ found: { b: { state: 'open' } } }, { b: { code: 'WL', foot: 'RH', claw: 'outer', line: 'heel' } }), // prettier-ignore
  'a file is begun': (day) => (first) => [
    first,
    cow('700', [visit(day, { kind: 'first', gait: 3, found: { a: { state: 'open' } } })]),
  ],
};

test.each(Object.entries(changes))(
  'where %s on one farm, no byte of another farm’s papers changes until the quarter ends',
  async (_, on) => {
    const papers = await papersOf(practiceWith(before));
    for (const day of [addDays(lastDay, 1), today])
      expect(await papersOf(practiceWith(on(day)))).toEqual(papers);
    const changed = await papersOf(practiceWith(on(lastDay)));
    for (const slug of farms.slice(1)) expect(changed[`${slug} annex`]).not.toBe(papers[`${slug} annex`]);
  },
);

test('an annex says up to which day the figures of all farms count', async () => {
  const papers = await papersOf(practiceWith(before));
  for (const slug of farms.slice(1))
    expect(papers[`${slug} annex`]).toContain('All farms together, up to 31 March 2026');
});
