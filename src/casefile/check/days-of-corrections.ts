import type { Animal } from '../../record/animal.js';
import type { Amendment } from '../../record/amendment.js';
import type { Farm } from '../../record/farm.js';
import type { RecordPath } from '../../problem/problem.js';
import type { FarmCheckContext } from '../check-context.js';
import type { Finding } from '../finding.js';
import { refuse } from './finding-at.js';

interface Amendable {
  readonly amended?: readonly Amendment[] | undefined;
}

/** A correction of who she is, of a lesion, a mark or an episode is made by today; those of visits are looked at with them. */
export function checkCorrectionsOfAnimal(animal: Animal, { today }: FarmCheckContext): Finding[] {
  const { lesions, marks = {}, episodes = [] } = animal;
  return [
    ...afterToday(animal, [], today),
    ...Object.entries(lesions).flatMap(([name, one]) => afterToday(one, ['lesions', name], today)),
    ...Object.entries(marks).flatMap(([name, one]) => afterToday(one, ['marks', name], today)),
    ...episodes.flatMap((one, i) => afterToday(one, ['episodes', i], today)),
  ];
}

/** The same in `farm.md`. */
export function checkCorrectionsOfFarm(farm: Farm, { today }: FarmCheckContext): Finding[] {
  return [
    ...afterToday(farm, [], today),
    ...(farm['gait-rounds'] ?? []).flatMap((one, i) => afterToday(one, ['gait-rounds', i], today)),
    ...(farm.footbath ?? []).flatMap((one, i) => afterToday(one, ['footbath', i], today)),
    ...(farm.plan ? afterToday(farm.plan, ['plan'], today) : []),
  ];
}

/** Of a list of corrections, those dated after today. */
export function afterToday({ amended = [] }: Amendable, path: RecordPath, today: string): Finding[] {
  return amended.flatMap(({ date }, at) =>
    date <= today
      ? []
      : [
          refuse(
            'amended-after-today',
            [...path, 'amended', at, 'date'],
            `amended is ${date}, expected no day after today, ${today}`,
            'correct the day of the amendment',
          ),
        ],
  );
}
