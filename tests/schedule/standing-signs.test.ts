import { describe, expect, test } from 'vitest';
import type { Animal } from '../../src/record/animal.js';
import type { AnimalSign, Sign } from '../../src/record/words.js';
import type { NoticeRuleId } from '../../src/reference/notices.js';
import { cow, quernholt, visit, workOut } from './a-case.js';

type More = Partial<Animal['visits'][number]>;
const today = '2026-06-30';
const seen = (...signs: Sign[]): More => ({ feet: { LH: { lifted: true, signs } } });
const gone = (...signs: Sign[]): More => ({ feet: { LH: { lifted: true, gone: signs } } });
const lifted: More = { feet: { LH: { lifted: true } } };
const report: More = { kind: 'report' };
const vet = (asked: string, ...about: string[]): More => ({ vet: { asked, why: 'please look', about } });
const answer = (to: string, more: object = {}): More => ({
  ...report,
  'vet-answer': { to, by: 'the practice', reply: 'seen', ...more },
});
const visits = (...some: [string, More][]) =>
  cow(
    some.map(([date, more]) => visit(date, more)),
    { lesions: {} },
  );
const rules = (animal: Animal, on = today) =>
  workOut(animal, on)
    .notices.filter(({ standing }) => standing)
    .map(({ rule }) => rule);

describe('a sign of a foot lasts until hands on that foot clear it', () => {
  const hot: [string, More] = ['2026-06-01', { ...seen('swollen heel', 'heat'), gait: 3 }];
  test.each<[string, boolean, ...[string, More][]]>([
    ['nothing since', true],
    ['a report that it is still swollen', true, ['2026-06-03', { ...report, feet: { LH: { signs: ['swollen heel'] } } }]],
    ['a report that says nothing of it', true, ['2026-06-03', { ...report, note: 'eating' }]],
    ['a walk across the yard, well', true, ['2026-06-10', { ...report, gait: 0 }]],
    ['another foot lifted, walking well', true, ['2026-06-10', { feet: { RH: { lifted: true } }, gait: 0 }]],
    ['that foot lifted, still lame', true, ['2026-06-10', { ...lifted, gait: 2 }]],
    ['that foot lifted, no score', true, ['2026-06-10', lifted]],
    ['that foot lifted, walking well', false, ['2026-06-10', { ...lifted, gait: 1 }]],
    ['found again, walking well', true, ['2026-06-10', { ...seen('swollen heel', 'heat'), gait: 1 }]],
    ['that foot lifted, walking well on a block', true, ['2026-06-10', { ...lifted, gait: 1, 'on-block': true }]],
    ['that foot lifted, walking well two days after pain relief', true, ['2026-06-08', { ...report, 'pain-relief': 'given' }], ['2026-06-10', { ...lifted, gait: 1 }]],
    ['that foot lifted, walking well four days after pain relief', false, ['2026-06-06', { ...report, 'pain-relief': 'given' }], ['2026-06-10', { ...lifted, gait: 1 }]],
    ['the heat written gone, lame or not', false, ['2026-06-10', { ...gone('heat'), gait: 2 }]],
    ['another sign written gone', true, ['2026-06-10', { ...gone('smell'), gait: 2 }]],
    ['the vet answers', true, ['2026-06-02', vet('2026-06-02', 'LH')], ['2026-06-03', answer('2026-06-02')]],
    ['the vet closes it', false, ['2026-06-02', vet('2026-06-02', 'LH')], ['2026-06-03', answer('2026-06-02', { closes: true })]],
    ['the vet closes another foot', true, ['2026-06-02', vet('2026-06-02', 'RH')], ['2026-06-03', answer('2026-06-02', { closes: true })]],
    ['the vet closes what was asked about nothing named', true, ['2026-06-02', { vet: { asked: '2026-06-02', why: 'pain relief' } }], ['2026-06-03', answer('2026-06-02', { closes: true })]],
    ['the answer names the foot, the question did not', false, ['2026-06-02', { vet: { asked: '2026-06-02', why: 'a cow' } }], ['2026-06-03', answer('2026-06-02', { closes: true, about: ['LH'] })]],
  ])('%s', (_, stands, ...since) => {
    const standing = rules(visits(hot, ...since));
    expect(standing.includes('swollen-and-hot')).toBe(stands);
  }); // prettier-ignore

  test('written again later it counts from that day', () => {
    const animal = visits(hot, ['2026-06-10', gone('heat')], ['2026-06-20', seen('heat', 'swollen heel')]);
    const told = workOut(animal, today).notices.filter(({ rule }) => rule === 'swollen-and-hot');
    expect(told.map(({ raised, standing }) => [raised, standing])).toEqual([
      ['2026-06-01', false],
      ['2026-06-20', true],
    ]);
  });
});

describe('what is deep takes two such lifts a week apart, or the vet', () => {
  test.each<[Sign, NoticeRuleId]>([
    ['toe turned up', 'toe-turned-up'],
    ['bone', 'bone'],
    ['swollen above foot', 'swollen-above-foot'],
  ])('%s', (sign, rule) => {
    const first: [string, More] = ['2026-06-01', seen(sign)];
    const well = { ...gone(sign), gait: 0 };
    expect(rules(visits(first, ['2026-06-10', well]))).toContain(rule);
    expect(rules(visits(first, ['2026-06-10', well], ['2026-06-16', well]))).toContain(rule);
    expect(rules(visits(first, ['2026-06-10', well], ['2026-06-17', well]))).not.toContain(rule);
    expect(rules(visits(first, ['2026-06-02', vet('2026-06-02', sign)], ['2026-06-03', answer('2026-06-02', { closes: true })]))).not.toContain(rule); // prettier-ignore
  });

  test('lame with nothing found', () => {
    const nothing: [string, More] = ['2026-06-01', { ...lifted, gait: 2 }];
    const well: More = { ...lifted, gait: 0 };
    expect(rules(visits(nothing, ['2026-06-10', well]))).toContain('lame-nothing-found');
    expect(rules(visits(nothing, ['2026-06-10', well], ['2026-06-17', well]))).toEqual([]);
  });
});

describe('blisters', () => {
  const first: [string, More] = ['2026-06-01', seen('blisters')];
  const asked: [string, More] = ['2026-06-01', { ...report, ...vet('2026-06-01', 'blisters') }];
  test.each<[string, boolean, ...[string, More][]]>([
    ['a report that another foot looks fine', true, ['2026-06-03', { ...report, note: 'the other foot is fine' }]],
    ['the foot found whole, and no answer', true, ['2026-06-20', { ...gone('blisters'), gait: 0 }]],
    ['an answer that closes it, and no look', true, asked, ['2026-06-04', answer('2026-06-01', { closes: true })]],
    ['an answer that closes nothing, and a look', true, asked, ['2026-06-04', answer('2026-06-01')], ['2026-06-20', gone('blisters')]],
    ['closed, and the foot found whole', false, asked, ['2026-06-04', answer('2026-06-01', { closes: true })], ['2026-06-20', gone('blisters')]],
  ])('%s', (_, stands, ...since) => {
    expect(rules(visits(first, ...since)).includes('blisters')).toBe(stands);
  }); // prettier-ignore
});

describe('a score on a block clears nothing', () => {
  const severe: [string, More] = ['2026-06-01', { ...seen('smell'), gait: 3 }];
  const urgency = (...since: [string, More][]) =>
    workOut(visits(severe, ...since), today).notices.find(
      ({ rule, standing }) => rule === 'severest-score' && standing,
    )?.urgency;
  const fitted: More = { blocks: [{ foot: 'LH', claw: 'inner', event: 'fitted' }] };
  const off: More = { blocks: [{ foot: 'LH', claw: 'inner', event: 'removed' }] };

  test('the severest score ends below lame off the block, a week after it came off; a step better ends the haste', () => {
    expect(urgency()).toBe('same-day');
    expect(urgency(['2026-06-10', { ...lifted, gait: 2, 'on-block': true }])).toBe('same-day');
    expect(urgency(['2026-06-10', { ...lifted, gait: 2 }])).toBe('notice');
    expect(urgency(['2026-06-10', { ...lifted, gait: 1 }])).toBeUndefined();
    const blocked: [string, More][] = [
      ['2026-06-02', { ...lifted, ...fitted }],
      ['2026-06-12', { ...lifted, ...off }],
    ];
    expect(urgency(...blocked, ['2026-06-18', { ...report, gait: 1 }])).toBe('notice');
    expect(urgency(...blocked, ['2026-06-19', { ...report, gait: 1 }])).toBeUndefined();
  });

  test('lame at two scorings ends only below lame off the block', () => {
    const lame: [string, More][] = [
      ['2026-06-01', { ...seen('smell'), gait: 2 }],
      ['2026-06-15', { ...seen('smell'), gait: 2 }],
    ];
    expect(rules(visits(...lame, ['2026-06-20', { ...lifted, gait: 1, 'on-block': true }]))).toContain(
      'lame-off-block',
    );
    expect(rules(visits(...lame, ['2026-06-20', { ...lifted, gait: 1 }]))).not.toContain('lame-off-block');
  });
});

describe('pus', () => {
  const pus = (more: object, feet: More = {}) =>
    cow([
      visit('2026-06-01', { found: { a: { state: 'open', top: 25, signs: ['pus'], ...more } }, ...feet }),
    ]);
  test('with any swelling is for the vet the same day, cold too, and when the swelling is reported later', () => {
    const swollen: More = { feet: { LH: { signs: ['swollen coronet'] } } };
    expect(rules(pus({}))).toEqual([]);
    expect(rules(pus({}, swollen))).toContain('pus-with-swelling');
    const later = pus({});
    later.visits.push(visit('2026-06-04', { ...report, ...swollen }));
    expect(workOut(later, today).notices[0]).toMatchObject({
      rule: 'pus-with-swelling',
      urgency: 'same-day',
      raised: '2026-06-04',
    });
  });
  test('where the top was not reached', () => {
    expect(rules(pus({ 'top-found': 'higher' }))).toContain('pus-top-not-reached');
    expect(rules(pus({ 'top-found': 'seen' }))).not.toContain('pus-top-not-reached');
  });
});

test('a gap at the coronet with heat or lameness is for the same day', () => {
  const at = (more: More) =>
    cow([
      visit('2026-05-05', { found: { a: { state: 'open', top: 9, wall: 43, tool: 'ruler' } } }),
      visit('2026-06-02', { found: { a: { state: 'open', top: 0, wall: 43, tool: 'ruler' } }, ...more }),
    ]);
  expect(rules(at({}))).toEqual(['at-coronet']);
  expect(rules(at({ gait: 2 }))).toContain('coronet-hot-or-lame');
  expect(rules(at({ feet: { LH: { signs: ['heat'] } } }))).toContain('coronet-hot-or-lame');
});

describe('signs of the animal', () => {
  const told = (...signs: AnimalSign[]): [string, More] => ['2026-06-01', { ...report, signs }];
  test.each<[AnimalSign, NoticeRuleId]>([
    ['down', 'off-feed-hot-or-down'],
    ['off feed', 'off-feed-hot-or-down'],
    ['feverish', 'off-feed-hot-or-down'],
    ['slobbering', 'off-feed-hot-or-down'],
    ['bleeding not stopped', 'bleeding-not-stopping'],
    ['joint or tendon', 'tendon-or-joint'],
    ['maggots', 'maggots'],
  ])('%s, told in a report, is for the vet', (sign, rule) => {
    const { notices } = workOut(visits(told(sign)), today);
    expect(notices).toMatchObject([{ rule, urgency: 'same-day', standing: true }]);
    expect(rules(visits(['2026-06-01', report]))).toEqual([]);
  });
  test('it is not over by another report, and is by a lift on a day she walks well', () => {
    expect(rules(visits(told('down'), ['2026-06-03', { ...report, note: 'up again' }]))).not.toEqual([]);
    expect(rules(visits(told('down'), ['2026-06-03', { ...lifted, gait: 1 }]))).toEqual([]);
  });
  test('maggots stop work in the United States', () => {
    const [notice] = workOut(visits(told('maggots')), today, { ...quernholt, language: 'en-US' }).notices;
    expect(notice?.urgency).toBe('stop-work');
  });
});

describe('an answer answers what it was about', () => {
  const both = (more: More) =>
    visits(
      ['2026-06-01', { ...seen('toe turned up', 'pus', 'swollen coronet'), ...more }],
      ['2026-06-02', answer('2026-06-01')],
    );
  const unasked = (animal: Animal) =>
    workOut(animal, today)
      .notices.filter(({ standing, asked }) => standing && !asked)
      .map(({ rule }) => rule);

  test('pain relief given answers neither the toe nor the pus, and the job to ring stays', () => {
    const animal = both({ vet: { asked: '2026-06-01', why: 'pain relief' } });
    expect(unasked(animal)).toEqual(['pus-with-swelling', 'toe-turned-up']);
    expect(workOut(animal, today).due.map(({ what }) => what)).toContain('vet-ask');
  });
  test('about the toe answers the toe alone; about the foot both', () => {
    expect(unasked(both(vet('2026-06-01', 'toe turned up')))).toEqual(['pus-with-swelling']);
    expect(unasked(both(vet('2026-06-01', 'LH')))).toEqual([]);
  });
  test('seen on the day the vet answered, she is not rung again', () => {
    const animal = both(vet('2026-06-01', 'LH'));
    animal.visits[1]!.feet = { LH: { signs: ['toe turned up'] } };
    const { notices, due } = workOut(animal, today);
    const toe = notices.find(({ rule }) => rule === 'toe-turned-up');
    expect(toe).toMatchObject({ seen: '2026-06-02', answered: { on: '2026-06-02' }, standing: true });
    expect(toe).not.toHaveProperty('seenAgain');
    expect(due.map(({ what }) => what)).not.toContain('vet-ring-again');
  });
  test('seen again after the answer, the vet is to be rung again', () => {
    const animal = both(vet('2026-06-01', 'LH'));
    animal.visits.push(visit('2026-06-10', { ...report, feet: { LH: { signs: ['toe turned up'] } } }));
    const { notices, due } = workOut(animal, '2026-06-12');
    const toe = notices.find(({ rule }) => rule === 'toe-turned-up');
    expect(toe).toMatchObject({ seenAgain: '2026-06-10', standing: true });
    expect(due[0]).toMatchObject({
      what: 'vet-ring-again',
      by: '2026-06-10',
      standing: 'overdue',
      urgency: 'same-day',
      why: { key: 'due.why.vet-ring-again-seen' },
    });
    animal.visits.push(visit('2026-06-11', { ...report, ...vet('2026-06-11', 'LH') }));
    const again = workOut(animal, '2026-06-11');
    expect(again.notices.find(({ rule }) => rule === 'toe-turned-up')).not.toHaveProperty('seenAgain');
    expect(again.due[0]?.what).toBe('vet-answer');
  });
  test('what can wait is answered by a question about nothing named', () => {
    const infected = cow([
      visit('2026-06-01', {
        found: { a: { state: 'open', top: 20, infected: true } },
        vet: { asked: '2026-06-01', why: 'infected' },
      }),
    ]);
    expect(unasked(infected)).toEqual([]);
  });
});

describe('a question without an answer', () => {
  const jobs = (animal: Animal, on: string) =>
    workOut(animal, on).due.filter(({ what }) => what.startsWith('vet-'));
  const toe = visits(['2026-06-01', { ...seen('toe turned up'), ...vet('2026-06-01', 'LH') }]);

  test('of the same day is to be asked again the next morning, first of all', () => {
    expect(jobs(toe, '2026-06-01')).toMatchObject([{ what: 'vet-answer', who: 'vet' }]);
    expect(jobs(toe, '2026-06-02')).toMatchObject([
      { what: 'vet-ring-again', who: 'farm', by: '2026-06-02', urgency: 'same-day' },
    ]);
    expect(jobs(toe, '2026-08-15')[0]?.standing).toBe('overdue');
    expect(workOut(toe, '2026-08-15').due[0]?.what).toBe('vet-ring-again');
  });
  test('that could wait, after a week', () => {
    const later = visits(['2026-06-01', { vet: { asked: '2026-06-01', why: 'a note' } }]);
    expect(jobs(later, '2026-06-07')).toMatchObject([{ what: 'vet-answer' }]);
    expect(jobs(later, '2026-06-08')).toMatchObject([{ what: 'vet-ring-again', urgency: 'notice' }]);
  });
});
