import type { Animal } from '../../record/animal.js';
import type { Finding } from '../finding.js';
import { refuse } from './finding-at.js';
import { oneOf } from './one-of.js';

/** A vet's answer goes to a day on which the vet was asked, and comes no earlier. */
export function checkVetAnswers({ visits }: Animal): Finding[] {
  const asked = visits.flatMap(({ vet }) => (vet ? [vet.asked] : []));
  return visits.flatMap((visit, i) => {
    const answer = visit['vet-answer'];
    if (!answer) return [];
    const path = ['visits', i, 'vet-answer', 'to'];
    if (answer.to > visit.date)
      return [
        refuse(
          'answered-before-asked',
          path,
          `the vet's answer of ${visit.date} is to ${answer.to}, expected a day the vet was asked, no later than the answer`,
          'write the day the vet was asked as `to`',
        ),
      ];
    if (asked.includes(answer.to)) return [];
    return [
      refuse(
        'answer-to-nothing',
        path,
        `the vet's answer is to ${answer.to}, and no visit says the vet was asked that day; ${
          asked.length > 0 ? `asked on ${oneOf(new Set(asked))}` : 'the vet was never asked'
        }`,
        'write the day the vet was asked as `to`, or add `vet: { asked: …, why: … }` to the visit it belongs to',
      ),
    ];
  });
}
