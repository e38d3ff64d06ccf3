import type { Animal } from '../../record/animal.js';
import { aboutWords } from '../../record/words.js';
import type { Finding } from '../finding.js';
import { nearestWord } from '../nearest-word.js';
import { shown } from '../shown.js';
import { declaredIn } from './declared-names.js';
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

/** What a question or an answer is about is a foot, a lesion or mark of hers, a sign, or `lame`. */
export function checkAboutVet({ lesions, marks = {}, visits }: Animal): Finding[] {
  const names = { ...lesions, ...marks };
  const known: readonly string[] = [...aboutWords, ...Object.keys(names)];
  return visits.flatMap((visit, i) =>
    (['vet', 'vet-answer'] as const).flatMap((key) =>
      (visit[key]?.about ?? []).flatMap((item, at) => {
        if (known.includes(item)) return [];
        const near = nearestWord(item, known);
        return [
          refuse(
            'about-unknown',
            ['visits', i, key, 'about', at],
            `${key}.about names ${shown(item)}, expected a foot, a sign, \`lame\`, or a lesion or mark by its name; ${declaredIn(names, 'lesion or mark')}`,
            near === undefined
              ? 'correct the word, or put it in words under `why` or `reply`'
              : `did you mean \`${near}\`?`,
          ),
        ];
      }),
    ),
  );
}
