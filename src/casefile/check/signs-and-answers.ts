import type { Animal } from '../../record/animal.js';
import type { Found, FootFinding, Visit } from '../../record/visit.js';
import { isLeftDown, isLiftingVisit } from '../../record/lifting.js';
import { type Foot, aboutWords } from '../../record/words.js';
import { inRow } from '../../problem/message.js';
import type { Finding } from '../../problem/problem.js';
import { messageWords } from '../../reference/words.js';
import { shown } from '../finding.js';
import { refuse, type AnimalCheckContext } from './check-context.js';
import { nearestWord } from '../nearest-word.js';
import { declaredIn } from './lesions-declared.js';
import { type Doubt, doubtsOf } from '../../record/doubts.js';

/**
 * A sign is gone only where somebody had a hand on the foot, and not where it was seen at the same look.
 *
 * Word from the farm, a cow not presented or a foot left on the ground clears nothing.
 */
export function checkSignsGone(animal: Animal): Finding[] {
  return animal.visits.flatMap((visit, i) => [
    ...Object.entries(visit.feet ?? {}).flatMap(([foot, finding]) =>
      goneAt(visit, i, ['feet', foot], finding, isLeftDown(visit, foot as Foot)),
    ),
    ...Object.entries(visit.found ?? {}).flatMap(([name, found]) =>
      goneAt(visit, i, ['found', name], found, isFoundLeftDown(animal, visit, name, found)),
    ),
  ]);
}

function isFoundLeftDown(animal: Animal, visit: Visit, name: string, found: Found): boolean {
  const foot = Object.hasOwn(animal.lesions, name) ? animal.lesions[name]?.foot : undefined;
  return foot === undefined
    ? !isLiftingVisit(visit) || found.lifted === false
    : isLeftDown(visit, foot, found);
}

function goneAt(
  { kind }: Visit,
  i: number,
  at: readonly [string, string],
  { signs = [], gone = [] }: Pick<FootFinding, 'signs' | 'gone'>,
  isDown: boolean,
): Finding[] {
  const path = ['visits', i, ...at, 'gone'];
  const called = at.join('.');
  if (gone.length > 0 && isDown)
    return [
      refuse(
        'gone-without-lifting',
        path,
        { place: called, signs: gone.join(', '), kind },
        { way: kind === 'report' || kind === 'missed' ? 'no-lifting-visit' : undefined, at: 'key' },
      ),
    ];
  return gone.flatMap((sign, nth) =>
    signs.includes(sign) ? [refuse('seen-and-gone', [...path, nth], { place: called, sign })] : [],
  );
}

/** A vet's answer goes to a day on which the vet was asked, and comes no earlier. */
export function checkVetAnswers({ visits }: Animal): Finding[] {
  const asked = visits.flatMap(({ vet }) => (vet ? [vet.asked] : []));
  return visits.flatMap((visit, i) => {
    const answer = visit['vet-answer'];
    if (!answer) return [];
    const path = ['visits', i, 'vet-answer', 'to'];
    if (answer.to > visit.date)
      return [refuse('answered-before-asked', path, { day: visit.date, asked: answer.to })];
    if (asked.includes(answer.to)) return [];
    const values = { asked: answer.to, days: inRow('or', new Set(asked)) };
    return [refuse('answer-to-nothing', path, values, { way: asked.length > 0 ? undefined : 'never-asked' })];
  });
}

/** What a question or an answer is about is a foot, a lesion or mark of hers, a sign, or `lame`. */
export function checkAboutVet({ lesions, marks = {}, visits }: Animal): Finding[] {
  const names = { ...lesions, ...marks };
  const known: readonly string[] = [...aboutWords, ...Object.keys(names)];
  const { listed, way } = declaredIn(names);
  return visits.flatMap((visit, i) =>
    (['vet', 'vet-answer'] as const).flatMap((key) =>
      (visit[key]?.about ?? []).flatMap((item, at) => {
        if (known.includes(item)) return [];
        const near = nearestWord(item, known);
        const said = { place: `${key}.about`, found: shown(item), listed, near: near ?? '' };
        const isNear = near === undefined ? way : way ? 'none-declared-near' : 'near';
        return [refuse('about-unknown', ['visits', i, key, 'about', at], said, { way: isNear })];
      }),
    ),
  );
}

/** What looks like a slip and may be right: centimetres typed for millimetres, a day in the wrong year. */
export function checkDoubts(animal: Animal, { today }: AnimalCheckContext): Finding[] {
  return doubtsOf(animal, { today }).map(doubtAsFinding);
}

/** A doubt as a warning, such as: found.a.top: 4.1 mm? 41 would fit. */
export function doubtAsFinding({ id, path, message, mend }: Doubt): Finding {
  const of = path.filter((part) => typeof part === 'string' && part !== 'visits').join('.');
  const said = messageWords().say('row.of', { of, says: message });
  return { id, severity: 'warning', path, at: 'value', message: said, mend };
}
