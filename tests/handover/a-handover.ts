import { publishedPrior } from '../../src/growth/growth-of-animal.js';
import { composeHandover } from '../../src/handover/compose-handover.js';
import type { HandoverPage } from '../../src/handover/page-of-handover.js';
import { latestPictures } from '../../src/handover/lesion-pictures.js';
import type { Animal } from '../../src/record/animal.js';
import type { Business } from '../../src/record/business.js';
import { addDays } from '../../src/record/calendar-day.js';
import type { Farm } from '../../src/record/farm.js';
import type { FarmRecord } from '../../src/record/practice.js';
import { workOutCase } from '../../src/schedule/work-out-case.js';
import { cow, herd, visit } from '../herd/invented-herd.js';
import { plain } from '../words/plain.js';

export const today = '2026-06-16';

/** The smallest picture; its size on the page is what its width and height say. */
const dot = 'R0lGODlhAQABAIAAAAAAAP///yH5BAEAAAAALAAAAAABAAEAAAIBRAA7';

/** The handover of the one cow of a farm, every picture there. */
export function handoverOf(
  farm: FarmRecord,
  { business = {}, ask, slug }: { business?: Business; ask?: string; slug?: string } = {},
): HandoverPage {
  const record = slug === undefined ? farm.cases[0]! : farm.cases.find((one) => one.slug === slug)!;
  const work = workOutCase(farm, record, { business, today, prior: publishedPrior });
  const latest = latestPictures(record.animal, work.standing.lesions, today);
  const pictures = new Map(
    latest.map(({ photo }) => [photo.file, { base64: dot, widthPx: 390, heightPx: 520 }]),
  );
  return plain(composeHandover({ business, farm, work, today, ask, pictures }));
}

export function farmOf(animal: Animal, farm: Partial<Farm> = {}): FarmRecord {
  return herd('quernholt', [animal], { farm: 'Quernholt', 'milkings-a-day': 2, ...farm });
}

const long = (words: number) => Array.from({ length: words }, (_, at) => `word${at}`).join(' ');
const unbroken = 'W'.repeat(300);

/** Ten years in one lameness episode, every text as long as somebody may write it, names that never end. */
export function longestRecord(): Animal {
  const codes = ['WL', 'SU', 'DD', 'WLA', 'HFV', 'BU', 'IH', 'TU'] as const;
  const feet = ['LH', 'RH', 'LF', 'RF'] as const;
  const lesions = Object.fromEntries(
    codes.map((code, at) => [
      `lesion-${at}`,
      {
        code,
        foot: feet[at % 4]!,
        ...(code === 'DD' ? {} : { claw: at % 2 ? 'inner' : 'outer' }),
        ...(['WL', 'WLA', 'HFV'].includes(code) ? { line: 'dorsal' } : {}),
      },
    ]),
  ) as Animal['lesions'];
  const signs = ['pus', 'smell', 'loose horn', 'undermined', 'exposed corium', 'proud flesh', 'swollen coronet', 'heat'] as const; // prettier-ignore
  const visits = Array.from({ length: 90 }, (_, at) =>
    visit(addDays('2016-07-01', at * 40), {
      by: at % 2 ? unbroken : long(30),
      gait: 2 + (at % 2),
      condition: 2.75,
      weight: 655.5,
      found: {
        'lesion-0': { state: 'open', top: 20 + (at % 5), wall: 78.5, width: 12.5, tool: 'ruler', signs: [...signs], 'ran-up': at % 7 === 0 }, // prettier-ignore
        'lesion-1': { state: 'open', width: 14.5 + (at % 4), length: 22.5, depth: 4, tool: 'ruler', signs: [...signs] }, // prettier-ignore
        'lesion-2': { stage: 'M4.1', length: 22, width: 18, signs: [...signs] },
        'lesion-3': { state: 'open', top: 4, wall: 78, infected: true, tool: 'eye', signs: [...signs] },
        'lesion-4': { state: 'open', top: 40, wall: 78, tool: 'eye', signs: [...signs] },
        'lesion-5': { state: 'open', width: 9, tool: 'ruler', signs: [...signs] },
      },
      blocks: [{ foot: 'LH', claw: 'inner', event: at % 2 ? 'replaced' : 'fitted', 'carrying-claw': 'bruised' }], // prettier-ignore
      wraps: [{ foot: 'RH', event: 'fitted' }],
      products: [
        {
          product: long(40), active: unbroken, class: 'medicine', batch: long(20), amount: long(20), route: long(20),
          note: long(200), 'given-by': unbroken, 'prescribed-by': long(40), 'milk-days': 5000, 'meat-days': 5000,
        }, // prettier-ignore
      ],
      photos: feet.map((foot) => ({ file: `photos/${at}-${foot}.jpg`, foot, view: 'sole', when: 'after' })),
      'pain-relief': 'farm declined',
      vet: { asked: addDays('2016-07-01', at * 40), why: long(300) },
      ...(at % 2 ? { 'vet-answer': { to: addDays('2016-07-01', at * 40), by: unbroken, reply: long(400) } } : {}), // prettier-ignore
      note: long(300),
    }),
  );
  return cow(long(40), visits, {
    tag: unbroken,
    electronic: unbroken,
    breed: long(30),
    born: '2012-01-01',
    calvings: ['2014-02-01', '2015-02-01', '2016-02-01'],
    'dried-off': ['2016-06-01'],
    'due-to-calve': '2026-09-01',
    handling: long(100),
    episodes: [{ 'lame-since': '2016-06-20', 'told-by': unbroken }],
    lesions,
  });
}

export const longestFarm: Partial<Farm> = {
  farm: long(30),
  holding: unbroken,
  address: long(60),
  contact: { name: long(30), phone: unbroken },
  vet: { practice: long(30), name: unbroken, phone: long(20), email: unbroken },
};

export const longestBusiness: Business = {
  business: long(30),
  trimmer: unbroken,
  phone: long(20),
  email: unbroken,
  'reply-to': unbroken,
};
