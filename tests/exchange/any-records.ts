import { hiddenSign } from '../../src/record/signs.js';
import * as fc from 'fast-check';
import { type Wanted, wantedBy } from '../../src/casefile/wanted.js';
import type { Written } from '../../src/exchange/records-json.js';
import { animal } from '../../src/record/animal.js';
import { business } from '../../src/record/business.js';
import { farm } from '../../src/record/farm.js';

/** Text of the kinds that get lost: what YAML takes for something else, quotes, colons, signs, line ends, other scripts. */
export const anyText = fc.oneof(
  fc
    .string({ unit: 'grapheme', minLength: 1, maxLength: 24 })
    .filter((text) => hiddenSign(text) === undefined),
  fc.constantFrom(
    'yes', 'no', 'true', 'null', '~', '0312', '007', '12E5', '1_000', '0x1F', '.inf', '2026-01-06', '2026-02-30', '10:40',
    '+44 1632 960001', '=1+1', '@sum', '-', '- a', '--- ', '---', '#', 'a #b', 'a: b', '"', "it's", "'", '{', '[', '&a', '*a', '!x', '%',
    '>', '|', ',', ';', '`', 'C:\\new', '\\', '\\u0041', 'née Zoë', '中文', '👩🏽‍🌾', 'e\u0301', ' blank before', 'blank behind ',
    'two\nlines', 'with\r\nreturn', 'lone\rreturn', 'tab\there', 'line\n', '\n', 'x\u2003y\u3000z', '\ufeffmark', '\u00a0', '"",""',
  ), // prettier-ignore
  fc
    .array(fc.constantFrom('heat', 'above', 'the', 'heel:', '#2', 'née', 'so.'), {
      minLength: 20,
      maxLength: 50,
    })
    .map((words) => words.join(' ')),
  fc
    .array(
      fc.constantFrom(
        'heat',
        'above the heel:',
        '#2',
        '- née',
        'so.',
        '',
        ' ',
        '---',
        'a  b',
        '  in',
        'key: {',
        'end ',
      ),
      { minLength: 2, maxLength: 8 },
    )
    .chain((lines) => fc.constantFrom('', '\n', '\n\n').map((end) => lines.join('\n') + end))
    .filter((text) => text !== ''),
  fc.constantFrom('', '\n').map((end) => `${'a long word or two '.repeat(9)}#end${end}`),
);

const day = fc
  .integer({ min: -25_567, max: 84_005 })
  .map((number) => new Date(number * 86_400_000).toISOString().slice(0, 10));
const name = fc.stringMatching(/^[a-z][a-z0-9-]{0,15}$/).filter((word) => word !== 'constructor');
export const anySlug = fc
  .stringMatching(/^[a-z0-9][a-z0-9-]{0,12}$/)
  .filter((word) => !/^(?:con|prn|aux|nul|com\d|lpt\d|farm|business|readme)$/.test(word));

/** Anything the record model takes there, every key of it sooner or later; what the checks between keys say is not asked. */
function anyOf(wanted: Wanted): fc.Arbitrary<unknown> {
  switch (wanted.kind) {
    case 'text':
    case 'free-text':
      return anyText;
    case 'day':
      return day;
    case 'day-or-unknown':
      return fc.oneof(day, fc.constant('unknown'));
    case 'time':
      return fc.constantFrom('00:00', '09:30', '23:59');
    case 'slug':
      return anySlug;
    case 'short-name':
      return name;
    case 'yes-no':
      return fc.boolean();
    case 'version':
      return fc.constant(wanted.version);
    case 'number':
      return wanted.whole
        ? fc.oneof(fc.nat(1000), fc.constant(Number.MAX_SAFE_INTEGER))
        : fc.oneof(
            fc.integer({ min: 0, max: (wanted.most ?? 800) * 4 }).map((quarters) => quarters / 4),
            fc.double({ min: 0, max: wanted.most ?? 1e12, noNaN: true }).map((number) => number + 0),
          );
    case 'word':
      return fc.constantFrom(...wanted.words);
    case 'list':
      return fc.array(anyOf(wanted.of), { maxLength: 3 });
    case 'group': {
      const required = [...wanted.keys].filter(([, key]) => key.required).map(([key]) => key);
      const model = Object.fromEntries([...wanted.keys].map(([key, of]) => [key, anyOf(of.wanted)]));
      return fc.record(model, { requiredKeys: required }).map((group) => ({ ...group }));
    }
    case 'named':
      return fc
        .dictionary(
          wanted.names === 'digits' ? fc.constantFrom('0', '1', '2', '10') : name,
          anyOf(wanted.of),
          { maxKeys: 3 },
        )
        .map((named) => ({ ...named }));
    case 'either':
      return fc.oneof(...wanted.forms.map(anyOf));
  }
}

const narrative = fc.oneof(
  fc.constant(''),
  anyText,
  anyText.map((text) => `\n${text}\n\n---\n\n# ${text}\n`),
);
const place = { file: '', placeOf: () => ({ line: 1, column: 1 }) };

/** A whole business by the record model alone: farms, animals, narratives. */
export const anyWritten = fc
  .record({
    business: anyOf(wantedBy(business)),
    narrative,
    farms: fc.uniqueArray(
      fc.record({
        slug: anySlug,
        farm: anyOf(wantedBy(farm)),
        narrative,
        cases: fc.uniqueArray(fc.record({ slug: anySlug, animal: anyOf(wantedBy(animal)), narrative }), {
          selector: ({ slug }) => slug,
          maxLength: 2,
        }),
      }),
      { selector: ({ slug }) => slug, maxLength: 2 },
    ),
  })
  .map(({ farms, ...own }) => ({
    ...own,
    farms: farms.map(({ cases, ...one }) => ({
      ...one,
      source: place,
      cases: cases.map((each) => ({ ...each, source: place })),
    })),
  })) as fc.Arbitrary<Written>;
