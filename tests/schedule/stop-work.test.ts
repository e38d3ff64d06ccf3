import { describe, expect, test } from 'vitest';
import { publishedPrior } from '../../src/growth/growth-of-animal.js';
import type { Animal } from '../../src/record/animal.js';
import type { EpisodeResult } from '../../src/record/words.js';
import type { Farm } from '../../src/record/farm.js';
import type { FarmRecord } from '../../src/record/practice.js';
import { stopInWords } from '../../src/words/compose-due.js';
import { wordsOf } from '../../src/reference/words.js';
import { workOutFarm } from '../../src/schedule/work-out-case.js';
import { cow, quernholt, visit } from './a-case.js';

type More = Partial<Animal['visits'][number]>;
const today = '2026-06-30';
const source = { file: 'x.md', placeOf: () => ({ line: 1, column: 1 }) };
const animal = (number: string, ...visits: [string, More][]): Animal => ({
  ...cow(
    visits.map(([date, more]) => visit(date, more)),
    { lesions: {} },
  ),
  animal: number,
});
const worked = (animals: readonly Animal[], farm: Farm = quernholt) => {
  const record: FarmRecord = {
    slug: 'quernholt',
    farm,
    narrative: '',
    source,
    cases: animals.map((one) => ({ slug: one.animal, animal: one, narrative: '', source })),
  };
  return workOutFarm(record, { business: {}, today, priors: { priorOf: () => publishedPrior } });
};
const stopOf = (...animals: Animal[]) => worked(animals)[0]?.stop;
const ended = (result: EpisodeResult, of: Animal): Animal => ({
  ...of,
  episodes: [{ ended: '2026-06-12', result }],
});
const lame = (day: string): [string, More] => [
  day,
  { gait: 2, feet: { LH: { lifted: true } }, recheck: '2026-06-20' },
];
const blisters: [string, More] = ['2026-06-10', { feet: { RF: { lifted: true, signs: ['blisters'] } } }];

describe('work stops', () => {
  test('for one animal with blisters: all the trimmer’s jobs on the farm are suspended, the farm’s go on', () => {
    const asking = { 'ask-farm': [{ what: 'straw pen' as const, by: '2026-06-12' }] };
    const cases = worked([
      animal('7', blisters),
      animal('8', [lame('2026-06-01')[0], { ...lame('2026-06-01')[1], ...asking }]),
    ]);
    expect(cases[0]?.stop).toMatchObject({
      rule: 'blisters',
      since: '2026-06-10',
      animals: ['7'],
      people: ['Orla Venn'],
    });
    const standings = cases.flatMap(({ due }) => due.map(({ who, standing }) => `${who} ${standing}`));
    expect(standings.some((one) => one === 'trimmer suspended')).toBe(true);
    expect(standings.filter((one) => one === 'trimmer open' || one === 'trimmer overdue')).toEqual([]);
    expect(standings).toContain('farm overdue');
  });

  test.each<[string, boolean, ...Animal[]]>([
    ['a cow that is lame', false, animal('7', lame('2026-06-01'))],
    ['one that slobbers', false, animal('7', ['2026-06-01', { kind: 'report', signs: ['slobbering'] }])],
    ['two that slobber or are feverish within a fortnight', true, animal('7', ['2026-06-01', { kind: 'report', signs: ['slobbering'] }]), animal('8', ['2026-06-15', { kind: 'report', signs: ['feverish'] }])],
    ['two, one of them off her feed as well', true, animal('7', ['2026-06-01', { kind: 'report', signs: ['off feed', 'slobbering'] }]), animal('8', ['2026-06-15', { kind: 'report', signs: ['feverish', 'down'] }])],
    ['two that are only off their feed', false, animal('7', ['2026-06-01', { kind: 'report', signs: ['off feed'] }]), animal('8', ['2026-06-15', { kind: 'report', signs: ['off feed'] }])],
    ['two a day too far apart', false, animal('7', ['2026-06-01', { kind: 'report', signs: ['slobbering'] }]), animal('8', ['2026-06-16', { kind: 'report', signs: ['feverish'] }])],
    ['one that slobbers, one suddenly lame with nothing open', true, animal('7', ['2026-06-01', { kind: 'report', signs: ['slobbering'] }]), animal('8', ['2026-05-01', { gait: 0 }], ['2026-06-10', { gait: 3 }])],
    ['one that slobbers, one that was lame before', false, animal('7', ['2026-06-01', { kind: 'report', signs: ['slobbering'] }]), animal('8', ['2026-05-01', { gait: 2 }], ['2026-06-10', { gait: 3 }])],
    ['two, closed by the authority', false, animal('7', ['2026-06-01', { kind: 'report', signs: ['slobbering'], vet: { asked: '2026-06-01', why: 'slobbering', about: ['slobbering'] } }], ['2026-06-18', { kind: 'report', 'vet-answer': { to: '2026-06-01', by: 'the authority', reply: 'nothing found', closes: true } }]), animal('8', ['2026-06-15', { kind: 'report', signs: ['feverish'] }])],
    ['one with blisters that was culled, nothing closed', true, ended('culled', animal('7', blisters))],
    ['one with blisters that was culled, closed by the authority', false, ended('culled', animal('7', blisters, ['2026-06-14', { kind: 'report', 'vet-answer': { to: '2026-06-10', by: 'the authority', reply: 'samples clear', about: ['blisters'], closes: true } }]))],
    ['one with blisters that was culled, another matter closed', true, ended('culled', animal('7', blisters, ['2026-06-14', { kind: 'report', 'vet-answer': { to: '2026-06-10', by: 'the vet', reply: 'sole is fine', about: ['LH'], closes: true } }]))],
    ['one with blisters, closed, seen again, then culled', true, ended('culled', animal('7', ['2026-06-02', blisters[1]], ['2026-06-05', { kind: 'report', 'vet-answer': { to: '2026-06-02', by: 'the authority', reply: 'samples clear', about: ['blisters'], closes: true } }], blisters))],
    ['two that slobber, and how another cow walks is closed', true, animal('7', ['2026-06-01', { kind: 'report', signs: ['slobbering'] }]), animal('8', ['2026-06-15', { kind: 'report', signs: ['feverish'] }]), animal('9', ['2026-06-18', { kind: 'report', 'vet-answer': { to: '2026-06-01', by: 'the vet', reply: 'walks well', about: ['lame'], closes: true } }])],
    ['two that slobber, one of them dead since', true, animal('7', ['2026-06-01', { kind: 'report', signs: ['slobbering'] }]), ended('died', animal('8', ['2026-06-10', { kind: 'report', signs: ['slobbering'] }]))],
    ['one that slobbers, one once suddenly lame and sound since', false, animal('7', ['2026-06-01', { kind: 'report', signs: ['slobbering'] }]), ended('sound', animal('8', ['2026-05-01', { gait: 0 }], ['2026-06-10', { gait: 3 }]))],
  ])('%s: %s', (_, stops, ...animals) => {
    expect(stopOf(...animals) !== undefined).toBe(stops);
  }); // prettier-ignore

  test('for maggots in the United States, and nowhere else', () => {
    const maggots = [animal('7', ['2026-06-10', { signs: ['maggots'] }])];
    expect(worked(maggots)[0]?.stop).toBeUndefined();
    expect(worked(maggots, { ...quernholt, language: 'en-US' })[0]?.stop?.rule).toBe('maggots');
  });
});

// One only told of is due to be lifted, so each of the four has a job that waits.
test('several ill: since the second of them, with all that were ill within a fortnight of it', () => {
  const ill = (number: string, date: string) => animal(number, [date, { kind: 'report', signs: ['slobbering'] }]);
  const [seven, eight, nine, ten] = [ill('7', '2026-06-01'), ill('8', '2026-06-10'), ill('9', '2026-06-24'), ill('10', '2026-06-25')];
  const stop = { rule: 'several-animals-ill', since: '2026-06-10', animals: ['7', '8', '9'], people: [], suspended: 4 };
  expect(stopOf(seven, eight, nine, ten)).toMatchObject(stop);
  expect(stopOf(ten, nine, eight, seven)).toMatchObject(stop);
}); // prettier-ignore

// The two lame ones and the one only told of are due to be lifted.
test('since the first day it was raised: who lifted feet there from that day on, and how many jobs wait', () => {
  const of = (by: string, more: More = {}): More => ({ by, trimmed: ['LH'], ...more });
  const told: [string, More] = ['2026-06-08', { kind: 'report', by: 'Nan Thistlewrack', feet: { LF: { signs: ['blisters'] } } }];
  const stop = stopOf(
    animal('7', blisters, ['2026-06-12', of('Tam Brierley')], ['2026-06-15', of('Orla Venn')]),
    animal('8', ['2026-06-07', of('Ines Quill')], ['2026-06-11', of('Jory Pell', { kind: 'report' })]),
    animal('9', told),
    animal('10', lame('2026-06-01')),
    animal('11', lame('2026-06-01')),
  );
  expect(stop).toMatchObject({
    rule: 'blisters',
    since: '2026-06-08',
    animals: ['7', '9'],
    people: ['Orla Venn', 'Tam Brierley'],
    suspended: 3,
  });
  expect(stop?.asked).toBeUndefined();
}); // prettier-ignore

test('asked the first time, answered the last', () => {
  const asks = (number: string, on: string, answered: string) =>
    animal(
      number,
      ['2026-06-10', { feet: { RF: { lifted: true, signs: ['blisters'] } } }],
      [on, { kind: 'report', vet: { asked: on, why: 'blisters', about: ['blisters'] } }],
      [answered, { kind: 'report', 'vet-answer': { to: on, by: 'the authority', reply: `on ${answered}` } }],
    );
  const both = [asks('7', '2026-06-12', '2026-06-16'), asks('8', '2026-06-11', '2026-06-14')];
  for (const animals of [both, both.toReversed()])
    expect(stopOf(...animals)).toMatchObject({ asked: '2026-06-11', answered: { on: '2026-06-16', reply: 'on 2026-06-16' } });
}); // prettier-ignore

test('of several ill the asking is reported, by a question that names what was seen, and the latest answer', () => {
  const about = { about: ['slobbering'] };
  const stop = stopOf(
    animal(
      '7',
      ['2026-06-01', { kind: 'report', signs: ['slobbering'], vet: { asked: '2026-06-01', why: 'ill', ...about } }],
      ['2026-06-03', { kind: 'report', 'vet-answer': { to: '2026-06-01', by: 'the authority', reply: 'we come' } }],
    ),
    animal('8', ['2026-06-03', { kind: 'report', signs: ['feverish'] }]),
  ); // prettier-ignore
  expect(stop).toMatchObject({
    rule: 'several-animals-ill',
    asked: '2026-06-01',
    answered: { on: '2026-06-03', reply: 'we come' },
  });
});

test('it says why, what stays, whether the vet was asked and how many jobs wait', () => {
  const words = wordsOf('en-GB');
  expect(stopInWords(words, worked([animal('8', lame('2026-06-01'))]))).toBeUndefined();
  const said = stopInWords(words, worked([animal('7', blisters), animal('8', lame('2026-06-01'))]));
  expect(said?.title).toBe('Stop work: stay on the farm');
  expect(said?.text).toMatch(
    /^Blisters or mouth sores: 7, since 10 June 2026\..*People, kit and animals stay.*Not asked yet.*job.* suspended/,
  );
});
