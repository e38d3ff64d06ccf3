import { expect, test } from 'vitest';
import { cannotCarryOn } from '../../src/healing/looks-at-lesion.js';
import type { LesionCode, LesionState, Sign } from '../../src/record/words.js';
import { cow, visit } from '../schedule/a-case.js';

const day = '2026-06-02';

/** Whether a claw with this lesion may not carry a block. */
function keepsFromCarrying(code: LesionCode, state: LesionState, lame = false, signs: Sign[] = []): boolean {
  const animal = cow([visit(day, { found: { a: { state, signs } } })], {
    lesions: { a: { code, foot: 'LH', claw: 'inner', line: 'dorsal' } },
  });
  return cannotCarryOn(animal, day, lame).length > 0;
}

test.each<[string, boolean, LesionCode, LesionState, boolean?, Sign[]?]>([
  ['heel erosion', false, 'HHE', 'present'],
  ['a fissure, walking well', false, 'HFH', 'open'],
  ['a fissure, lame', true, 'HFH', 'open', true],
  ...(['bleeding', 'pus', 'exposed corium', 'proud flesh', 'necrosis', 'bone'] as const).map(
    (sign): [string, boolean, LesionCode, LesionState, boolean, Sign[]] => [
      `a fissure with ${sign}`,
      true,
      'HFV',
      'open',
      false,
      [sign],
    ],
  ),
  ['a fissure that smells', false, 'HFV', 'open', false, ['smell']],
  ['a wall gap', true, 'WL', 'open'],
  ['an ulcer', true, 'SU', 'open'],
  ['an ulcer, covered', false, 'SU', 'covered'],
  ['a thin sole', true, 'TS', 'present'],
  ['a thin sole, healed', false, 'TS', 'healed'],
  ['a double sole', true, 'DS', 'open'],
  ['bruising', true, 'SH', 'present'],
  ['a claw out of shape', false, 'CC', 'present'],
])('%s keeps a claw from carrying a block: %s', (_, keeps, code, state, lame, signs) => {
  expect(keepsFromCarrying(code, state, lame, signs)).toBe(keeps);
});
