import { hiddenSign } from '../../src/record/signs.js';
import { readFileSync } from 'node:fs';
import * as fc from 'fast-check';
import { stringify } from 'yaml';
import type { VisitDraft } from '../../src/keep/visit-draft.js';
import { painReliefWords, signs, tools } from '../../src/record/words.js';

/** Any text at all that the schema takes: signs YAML cares about, letters of any script, line ends, quotes. */
const anyText = fc.oneof(
  fc
    .string({ unit: 'grapheme', minLength: 1, maxLength: 30 })
    .filter((text) => hiddenSign(text) === undefined),
  fc.constantFrom(
    'yes',
    'null',
    '~',
    '2086',
    '0312',
    '12E5',
    '- a',
    '#',
    'a #b',
    'a: b',
    '"',
    "it's",
    '{',
    '&a',
    '!x',
    '>',
    '|',
    '---',
  ),
  fc
    .array(fc.constantFrom('heat', 'above', 'the', 'heel:', '#2', 'née', 'so.'), {
      minLength: 20,
      maxLength: 60,
    })
    .map((words) => words.join(' ')),
  fc.constantFrom('two\nlines', 'tab\there', ' blanks ', 'line\n', 'x\u2003y\u3000z', 'C:\\new'),
);

/** A name is one line. */
const anyName = anyText.map((text) => text.replaceAll(/[\r\n]+/g, ' '));

const day = fc
  .integer({ min: 0, max: 300 })
  .map((n) => new Date(Date.UTC(2026, 0, 6 + n)).toISOString().slice(0, 10));
const mm = fc.integer({ min: 0, max: 80 }).map((halves) => halves / 2);

const foundA = fc.record(
  {
    state: fc.constantFrom('open' as const, 'covered' as const),
    top: mm,
    wall: fc.constant(43),
    tool: fc.constantFrom(...tools),
    signs: fc.uniqueArray(fc.constantFrom(...signs), { maxLength: 3 }),
    note: anyText,
  },
  { requiredKeys: ['state'] },
);

/** Any visit that feet were lifted at, or word from the farm, under the lesions of `anyCase`; the name makes it nobody else's. */
export const anyVisit: fc.Arbitrary<VisitDraft> = fc
  .record({ date: day, by: anyName, salt: fc.nat(1e9) })
  .chain(({ date, by, salt }) => {
    const always = { date: fc.constant(date), by: fc.constant(`${by}${salt}`) };
    const lifted = fc.record(
      {
        ...always,
        kind: fc.constantFrom('recheck' as const, 'routine' as const),
        gait: fc.constantFrom(0, 1, 2, 3),
        weight: fc.constantFrom(655, 640.5),
        feet: fc.record(
          { RH: fc.record({ lifted: fc.constant(true), note: anyText }, { requiredKeys: [] }) },
          { requiredKeys: [] },
        ),
        found: fc.record(
          {
            a: foundA,
            c: fc.record(
              {
                stage: fc.constantFrom('M1' as const, 'M2' as const, 'M4.1' as const),
                length: fc.constant(22),
                width: fc.constantFrom(1.5, 18),
              },
              { requiredKeys: ['stage'] },
            ),
            m1: fc.record({ distance: mm, tool: fc.constantFrom(...tools) }),
          },
          { requiredKeys: [] },
        ),
        trimmed: fc.constantFrom<NonNullable<VisitDraft['trimmed']>[]>(
          [],
          ['LH' as const],
          ['LH' as const, 'RF' as const],
        ),
        products: fc.array(
          fc.record(
            { product: anyName, batch: anyName, 'milk-days': fc.constantFrom(0, 4) },
            { requiredKeys: ['product'] },
          ),
          { maxLength: 2 },
        ),
        'pain-relief': fc.constantFrom(...painReliefWords),
        photos: fc.constant<VisitDraft['photos']>([
          { file: `photos/${salt}.jpg`, view: 'sole' as const, when: 'after' as const },
        ]),
        vet: fc.record({ asked: fc.constant(date), why: anyText }),
        'tools-disinfected': fc.boolean(),
        recheck: fc.constant('2027-01-05'),
        note: anyText,
      },
      { requiredKeys: ['date', 'by', 'kind'] },
    );
    const told = fc.record(
      {
        ...always,
        kind: fc.constant('report' as const),
        note: anyText,
        gait: fc.constant(1),
        'farm-did': fc.constant<VisitDraft['farm-did']>([{ what: 'block watch' as const, on: date }]),
      },
      { requiredKeys: ['date', 'by', 'kind'] },
    );
    return fc.oneof({ weight: 4, arbitrary: lifted }, { weight: 1, arbitrary: told });
  });

/** How somebody may have written the file: step, dashes under or beside the key, brackets, comments, blank lines, line ends, what follows. */
const anyHand = fc.record({
  step: fc.constantFrom(2, 3, 4),
  indentSeq: fc.boolean(),
  flow: fc.constantFrom('none', 'visits', 'entries', 'all'),
  spread: fc.boolean(),
  remarks: fc.array(fc.nat(3), { minLength: 1, maxLength: 7 }),
  eol: fc.constantFrom('\n', '\r\n'),
  mark: fc.constantFrom('', '\ufeff'),
  ending: fc.constantFrom(
    '',
    '\n',
    '\n\nWords about her.\n',
    '\nNo last line end',
    '\n---\n\n- date: 2026\n',
  ),
});

export interface AnyCase {
  readonly text: string;
  readonly brackets: boolean;
}

/** A whole animal file in anybody's hand. */
export const anyCase: fc.Arbitrary<AnyCase> = fc
  .record({ hand: anyHand, visits: fc.array(anyVisit, { maxLength: 4 }) })
  .map(({ hand, visits }) => {
    const record = {
      casefile: 1,
      animal: '2086',
      handling: 'kicks left',
      lesions: {
        a: { code: 'WL', foot: 'LH', claw: 'outer', line: 'heel' },
        c: { code: 'DD', foot: 'RH' },
      },
      marks: { m1: { foot: 'LH', claw: 'inner', line: 'dorsal' } },
      visits: visits.toSorted((a, b) => (a.date < b.date ? -1 : 1)),
    };
    return {
      text: written(record, hand),
      brackets: visits.length === 0 || hand.flow === 'visits' || hand.flow === 'all',
    };
  });

type Hand = typeof anyHand extends fc.Arbitrary<infer H> ? H : never;

/** Written by the YAML library, not by what is tested; then remarked and spaced line by line. */
function written(record: Readonly<Record<string, unknown>>, hand: Hand): string {
  const { step, indentSeq, flow, eol, mark, ending } = hand;
  const options = {
    indent: step,
    indentSeq,
    lineWidth: 0,
    defaultStringType: 'QUOTE_DOUBLE',
    defaultKeyType: 'PLAIN',
  } as const;
  const lines = Object.entries(record).flatMap(([key, value]) => {
    const brackets = flow === 'all' || (flow === 'visits' && key === 'visits');
    if (brackets && hand.spread && Array.isArray(value) && value.length > 0)
      return [
        `${key}: [`,
        ...value.map((one, i) => `    ${JSON.stringify(one)}${i + 1 < value.length ? ',' : ''}`),
        `  ]`,
      ];
    if (brackets) return [`${key}: ${JSON.stringify(value)}`];
    if (flow === 'entries' && key === 'visits' && Array.isArray(value) && value.length > 0)
      return [`${key}:`, ...value.map((one) => `  -   ${JSON.stringify(one)}`)];
    return stringify({ [key]: value }, options)
      .trimEnd()
      .split('\n');
  });
  const remarked = lines.flatMap((line, i) => remark(line, hand.remarks[i % hand.remarks.length] ?? 0));
  return `${mark}---${eol}${remarked.join(eol)}${eol}---${ending.replaceAll('\n', eol)}`;
}

/** Nothing, a comment behind the line, a comment line as far in, a blank line. */
function remark(line: string, which: number): string[] {
  const indent = /^ */.exec(line)?.[0] ?? '';
  if (which === 1) return [`${line}   # said on the farm`];
  if (which === 2) return [line, `${indent}# - date: 2020-01-01`];
  return which === 3 ? [line, ''] : [line];
}

/** Files as people and this project keep them, with the names of their farms' folders. */
export const keptTexts: readonly string[] = [
  'tests/casefiles/good/every-key/quernholt/2086.md',
  'tests/casefiles/good/odd-but-legal/quernholt/0312.md',
  'tests/casefiles/good/smallest/quernholt/2086.md',
  'tests/casefiles/good/ten-years/harrowmere/587.md',
  'cases/quernholt/2086.md',
  'cases/quernholt/1954.md',
].map((name) => readFileSync(new URL(`../../${name}`, import.meta.url), 'utf8'));
