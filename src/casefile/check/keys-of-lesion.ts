import type { Animal } from '../../record/animal.js';
import type { Found } from '../../record/found.js';
import { wallGapKeys } from '../../reference/finding-keys.js';
import { lesionKinds, measures, type LesionFamily, type Measure } from '../../reference/lesions.js';
import type { Finding } from '../finding.js';
import { refuse } from './finding-at.js';
import { lesionLooks, type LesionLook } from './look.js';
import { oneOf } from './one-of.js';

/** A finding carries only keys that belong to its lesion's code. */
export function checkKeysOfLesion(animal: Animal): Finding[] {
  return lesionLooks(animal).flatMap((look) =>
    (Object.keys(look.found) as (keyof Found)[]).flatMap((key) => misplaced(look, key) ?? []),
  );
}

function misplaced(look: LesionLook, key: keyof Found): Finding | undefined {
  const { name, code, path } = look;
  const why = isMeasure(key) ? measureOff(look, key) : wordOff(look, key);
  if (!why) return undefined;
  const whose = key === 'distance' ? 'a lesion' : `${lesionKinds[code].name} (${code})`;
  return refuse(
    key === 'distance' ? 'distance-on-lesion' : `${key}-not-for-code`,
    [...path, key],
    `found.${name}.${key} does not belong to ${whose}: ${why.message}`,
    why.mend ?? `take \`${key}\` out, or correct the code of ${name}`,
    'key',
  );
}

interface Why {
  readonly message: string;
  readonly mend?: string;
}

const carries: Readonly<Record<LesionFamily, string>> = {
  wall: 'a wall gap carries `top`, `wall` and `width`',
  ulcer: 'an ulcer carries `length` and `width`',
  'double sole': 'a double sole carries `length` and `width`',
  'toe necrosis': 'no wall line and no size is read on it',
  dermatitis: 'it carries `stage`, and may carry `length` and `width`',
  present: 'it is only said to be `present` or `healed`',
};

function isMeasure(key: string): key is Measure {
  return (measures as readonly string[]).includes(key);
}

function measureOff({ code }: LesionLook, key: Measure): Why | undefined {
  const { family, measures: measured } = lesionKinds[code];
  if (measured.has(key)) return undefined;
  const repeats = key === 'length' && family === 'wall';
  return { message: repeats ? 'on a wall gap it only repeats wall − top' : carries[family] };
}

function wordOff({ code, found }: LesionLook, key: keyof Found): Why | undefined {
  const { family, measures: measured, states } = lesionKinds[code];
  if (key === 'distance')
    return {
      message: 'it is the length of a mark',
      mend: 'write the length of a wall gap as `top`; declare a growth mark under `marks`',
    };
  if (key === 'tool' && measured.size === 0)
    return { message: `nothing is measured on it; its state is ${oneOf(states)}` };
  if (key === 'infected' && found.infected && family === 'dermatitis')
    return {
      message: 'it says that dermatitis got into another lesion',
      mend: 'write `infected: true` on the lesion in the horn; on the skin the `stage` says it',
    };
  if (wallGapKeys.has(key) && found[key] !== false && family !== 'wall')
    return { message: 'only a gap in the wall has it' };
  return undefined;
}
