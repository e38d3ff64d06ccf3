import type { Animal } from '../../record/animal.js';
import type { FootFinding } from '../../record/visit.js';
import { isLeftDown, isLiftingVisit } from '../../record/lifting.js';
import { type Foot, type VisitKind, aboutWords } from '../../record/words.js';
import { inRow } from '../../problem/message.js';
import type { Finding, RecordPath } from '../../problem/problem.js';
import { messageWords } from '../../reference/words.js';
import { shown } from '../finding.js';
import { type AnimalCheckContext, type Findings, declaredAs, refuse } from './check-context.js';
import { nearestWord } from '../nearest-word.js';
import { declaredIn } from './lesions-declared.js';
import { type Doubt, doubtsOf } from '../../record/doubts.js';

/**
 * A sign is gone only where somebody had a hand on the foot, and not where it was seen at the same look.
 *
 * Word from the farm, a cow not presented or a foot left on the ground clears nothing.
 */
export function* checkSignsGone({ visits, lesions }: Animal): Findings {
  for (const [i, visit] of visits.entries()) {
    for (const [foot, finding] of Object.entries(visit.feet ?? {}))
      yield* goneAt(['visits', i, 'feet', foot, 'gone'], visit, finding, isLeftDown(visit, foot as Foot));
    for (const [name, found] of Object.entries(visit.found ?? {})) {
      const foot = declaredAs(lesions, name)?.foot;
      const isDown = foot ? isLeftDown(visit, foot, found) : !isLiftingVisit(visit) || found.lifted === false;
      yield* goneAt(['visits', i, 'found', name, 'gone'], visit, found, isDown);
    }
  }
}

function* goneAt(
  path: RecordPath,
  { kind }: { readonly kind: VisitKind },
  { signs = [], gone = [] }: Pick<FootFinding, 'signs' | 'gone'>,
  isDown: boolean,
): Findings {
  const place = path.slice(2, 4).join('.');
  const way = kind === 'report' || kind === 'missed' ? 'no-lifting-visit' : undefined;
  if (gone.length > 0 && isDown)
    yield refuse('gone-without-lifting', path, { place, signs: gone.join(', '), kind }, { way, at: 'key' });
  else
    for (const [nth, sign] of gone.entries())
      if (signs.includes(sign)) yield refuse('seen-and-gone', [...path, nth], { place, sign });
}

/** A vet's answer goes to a day on which the vet was asked, and comes no earlier. */
export function* checkVetAnswers({ visits }: Animal): Findings {
  const days = new Set(visits.flatMap(({ vet }) => vet?.asked ?? []));
  for (const [i, { 'vet-answer': answer, date: day }] of visits.entries()) {
    if (!answer) continue;
    const path = ['visits', i, 'vet-answer', 'to'];
    const { to: asked } = answer;
    if (asked > day) yield refuse('answered-before-asked', path, { day, asked });
    else if (!days.has(asked))
      yield refuse(
        'answer-to-nothing',
        path,
        { asked, days: inRow('or', days) },
        { way: days.size > 0 ? undefined : 'never-asked' },
      );
  }
}

/** What a question or an answer is about is a foot, a lesion or mark of hers, a sign, or `lame`. */
export function* checkAboutVet({ lesions, marks = {}, visits }: Animal): Findings {
  const names = { ...lesions, ...marks };
  const known: readonly string[] = [...aboutWords, ...Object.keys(names)];
  const { listed, way } = declaredIn(names);
  for (const [i, visit] of visits.entries())
    for (const key of ['vet', 'vet-answer'] as const)
      for (const [at, item] of (visit[key]?.about ?? []).entries()) {
        if (known.includes(item)) continue;
        const near = nearestWord(item, known);
        const said = { place: `${key}.about`, found: shown(item), listed, near: near ?? '' };
        const isNear = near === undefined ? way : way ? 'none-declared-near' : 'near';
        yield refuse('about-unknown', ['visits', i, key, 'about', at], said, { way: isNear });
      }
}

/** What looks like a slip and may be right: centimetres typed for millimetres, a day in the wrong year. */
export function* checkDoubts(animal: Animal, { today }: AnimalCheckContext): Findings {
  for (const doubt of doubtsOf(animal, { today })) yield doubtAsFinding(doubt);
}

/** A doubt as a warning, such as: found.a.top: 4.1 mm? 41 would fit. */
export function doubtAsFinding({ id, path, message, mend }: Doubt): Finding {
  const of = path.filter((part) => typeof part === 'string' && part !== 'visits').join('.');
  const said = messageWords().say('row.of', { of, says: message });
  return { id, severity: 'warning', path, at: 'value', message: said, mend };
}
