import * as fc from 'fast-check';
import { stringify } from 'yaml';
import { anyVisit } from '../keep/any-case.js';

/** An invented animal: the name of her file, and what nobody but she is called. */
export interface GeneratedAnimal {
  readonly slug: string;
  readonly marks: readonly string[];
}

export interface GeneratedFarm {
  readonly slug: string;
  /** What stands for this farm and for no other: its names, its contact, its animals. */
  readonly marks: readonly string[];
  /** A mark that each output of the farm itself must hold, so that an empty file is not taken for a discreet one. */
  readonly name: string;
  readonly animals: readonly GeneratedAnimal[];
}

export interface GeneratedBusiness {
  readonly files: Readonly<Record<string, string>>;
  readonly farms: readonly GeneratedFarm[];
}

const quoted = { lineWidth: 0, defaultStringType: 'QUOTE_DOUBLE', defaultKeyType: 'PLAIN' } as const;
const file = (record: object, narrative: string) => `---\n${stringify(record, quoted)}---\n\n${narrative}\n`;

/** Six letters that are in no word; the farm's place among the others makes them its own. */
const token = fc
  .array(fc.constantFrom(...'bdfgkpvxz'), { minLength: 5, maxLength: 5 })
  .map((letters) => letters.join(''));

const animal = fc.record({
  visits: fc.array(anyVisit, { maxLength: 4 }),
  moved: fc.boolean(),
  asked: fc.constantFrom('2026-11-20', '2026-12-05'),
});
const farm = fc.record({
  token,
  animals: fc.array(animal, { minLength: 1, maxLength: 2 }),
  nextVisit: fc.option(fc.constantFrom('2026-12-08', '2026-12-15', '2026-11-01'), { nil: undefined }),
  language: fc.constantFrom('en-GB', 'en-US'),
  address: fc.boolean(),
});

/** A business of two to four farms with their animals, worked as on 1 December 2026; cows of one farm may have come from another. */
export const generatedBusiness: fc.Arbitrary<GeneratedBusiness> = fc
  .array(farm, { minLength: 2, maxLength: 4 })
  .map((drawn) => {
    const names = drawn.map((one, at) => `q${at}${one.token}`);
    const files: Record<string, string> = {
      'cases/business.md': file({ business: 'Quillfen Foot Trimming', trimmer: 'Marra Quillfen' }, ''),
    };
    const farms = drawn.map((one, at): GeneratedFarm => {
      const own = names[at]!;
      const from = names[(at + 1) % names.length]!;
      const phone = `01632 96${at}${one.token.length}${at}7`;
      files[`cases/farm-${own}/farm.md`] = file(
        {
          farm: `Fold ${own}`,
          holding: `00/000/${own}`,
          ...(one.address ? { address: `Lane ${own}, Nether Oddering` } : {}),
          contact: { name: `Nan ${own}`, email: `nan@${own}.example`, phone },
          vet: { practice: 'Ossgrain Veterinary Practice' },
          herd: { from: '2024-01-01', cows: 210, housing: 'housed' },
          hemisphere: 'north',
          'gait-scale': 'uk-0-3',
          'milkings-a-day': 2,
          language: one.language,
          'staff-languages': ['es'],
          ...(one.nextVisit ? { 'next-visit': one.nextVisit } : {}),
          'gait-rounds': [{ date: '2026-01-05', by: `Nan ${own}`, scored: 10, counts: { 0: 8, 1: 1, 2: 1 } }],
          plan: { date: '2026-01-05', with: `Nan ${own}` },
        },
        `Notes on ${own}.`,
      );
      const animals = one.animals.map((hers, number): GeneratedAnimal => {
        const slug = `${own}-${number}`;
        const tag = `UK 000123 ${slug}`;
        const [last, ...before] = hers.visits
          .toSorted((a, b) => (a.date < b.date ? -1 : 1))
          .toReversed()
          .map((visit) => ({ ...visit, photos: undefined }));
        const visits = [
          ...before.toReversed(),
          ...(last ? [{ ...last, 'ask-farm': [{ what: 'block watch', by: hers.asked }] }] : []),
        ];
        files[`cases/farm-${own}/${slug}.md`] = file(
          {
            casefile: 1,
            animal: `N${slug}`,
            tag,
            handling: `kicks, says ${own}`,
            ...(hers.moved
              ? { earlier: [{ animal: 'F99', farm: `farm-${from}`, until: '2025-12-01' }] }
              : {}),
            lesions: {
              a: { code: 'WL', foot: 'LH', claw: 'outer', line: 'heel' },
              c: { code: 'DD', foot: 'RH' },
            },
            marks: { m1: { foot: 'LH', claw: 'inner', line: 'dorsal' } },
            visits: JSON.parse(JSON.stringify(visits)) as unknown,
          },
          `Words about ${slug}.`,
        );
        return { slug, marks: [`N${slug}`, tag] };
      });
      return {
        slug: `farm-${own}`,
        name: own,
        marks: [own, phone, ...animals.flatMap(({ marks }) => marks)],
        animals,
      };
    });
    return { files, farms };
  });
