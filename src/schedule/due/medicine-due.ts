import { addDays } from '../../record/calendar-day.js';
import { mayBePainRelief, type NotKnown, type Side, sides, usesOf, whyNotKnown, withheldOf } from '../withheld.js'; // prettier-ignore
import { type DueContext, type DueDraft, episodeVisits } from './due-context.js';

/**
 * Until when milk and meat are withheld, one day each; and one item to ask, where it is not known. Of closed cases too.
 *
 * Checked: tests/schedule/due-items.test.ts
 */
export function withdrawalDue({ animal, farm, today }: DueContext): DueDraft[] {
  const withheld = withheldOf(animal, farm, today);
  const clear = sides.flatMap((side): DueDraft[] => {
    const held = withheld[side];
    if (held.outcome !== 'withheld') return [];
    const { firstClear: by, lastWithheld, product, day } = held;
    const what = `${side}-clear` as const;
    const why = { key: `due.why.${what}`, values: { product, day, last: lastWithheld, clear: by } };
    return [{ what, by, lastWithheld, who: 'farm', basis: 'record', why }];
  });
  return [...clear, ...askDue(sides.filter((side) => withheld[side].outcome === 'not-known'))];

  function askDue(unknown: readonly Side[]): DueDraft[] {
    const of = new Map<string, { reason: NotKnown; which: Side | 'both' }>();
    for (const side of unknown) {
      const held = withheld[side];
      for (const reason of held.outcome === 'not-known' ? held.why : []) {
        const key = JSON.stringify(reason);
        of.set(key, { reason, which: of.has(key) ? 'both' : side });
      }
    }
    const [first, ...more] = [...of.values()].sort((a, b) => (a.reason.day < b.reason.day ? -1 : 1));
    if (!first) return [];
    const { key, values } = whyNotKnown(first.reason, first.which);
    return [
      {
        what: 'withdrawal-not-recorded',
        notRecorded: unknown.length > 1 ? 'both' : unknown[0]!,
        by: first.reason.day,
        who: 'farm',
        basis: 'record',
        why: { key, values: { ...values, more: more.length } },
      },
    ];
  }
}

/**
 * Pain relief that was asked for and not answered by the next day. A later word, an answer of the vet, a product given or
 * a walk below lame answers it.
 *
 * Checked: tests/schedule/due-items.test.ts
 */
export function painReliefDue(context: DueContext): DueDraft[] {
  const { animal, today, standing } = context;
  const visits = episodeVisits(context);
  const last = visits.findLast(([, visit]) => visit['pain-relief'] !== undefined);
  if (last?.[1]['pain-relief'] !== 'asked') return [];
  const [at, { date }] = last;
  const isAnswered =
    visits.some(([later, visit]) => later >= at && (visit['vet-answer']?.to ?? '') >= date) ||
    usesOf(animal, today).some((one) => one.last >= date && mayBePainRelief(one.use)) ||
    (standing.gait.last?.lame === false && standing.gait.last.date > date);
  const by = addDays(date, 1);
  if (isAnswered || today < by) return [];
  return [
    {
      what: 'pain-relief-ask',
      by,
      overdueFrom: addDays(by, 1),
      who: 'farm',
      basis: 'record',
      why: { key: 'due.why.pain-relief-ask', values: { day: date } },
    },
  ];
}
