import { type Doubt, doubtsOf } from '../../record/doubts.js';
import type { Animal } from '../../record/animal.js';
import type { AnimalCheckContext } from '../check-context.js';
import type { Finding } from '../finding.js';

/** What looks like a slip and may be right: centimetres typed for millimetres, a day in the wrong year. */
export function checkDoubts(animal: Animal, { today }: AnimalCheckContext): Finding[] {
  return doubtsOf(animal, { today }).map(doubtAsFinding);
}

/** A doubt as a warning, such as: found.a.top: 4.1 mm? 41 would fit. */
export function doubtAsFinding({ id, path, says, fix }: Doubt): Finding {
  const key = path.filter((part) => typeof part === 'string' && part !== 'visits').join('.');
  return { id, severity: 'warning', path, at: 'value', message: `${key}: ${says}`, mend: fix };
}
