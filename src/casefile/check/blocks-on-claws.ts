import type { Animal } from '../../record/animal.js';
import { familyOf } from '../../reference/lesions.js';
import type { Claw, Foot } from '../../record/words.js';
import type { Finding } from '../finding.js';
import { refuse, warn } from './finding-at.js';
import { lesionLooks } from './look.js';

const offAgain = new Set(['removed', 'lost', 'replaced']);

/** A block goes on the sound claw, and that claw is looked at when the block comes off. */
export function checkBlocksOnClaws(animal: Animal): Finding[] {
  return animal.visits.flatMap((visit, i) =>
    (visit.blocks ?? []).flatMap((block, at): Finding[] => {
      const path = ['visits', i, 'blocks', at];
      if (block['carrying-claw'] && !offAgain.has(block.event))
        return [
          refuse(
            'carrying-claw-not-removed',
            [...path, 'carrying-claw'],
            `carrying-claw stands with a block that is ${block.event}, expected with its removal only`,
            'write it where the block is removed, replaced or lost',
            'key',
          ),
        ];
      if (block.event !== 'fitted' && block.event !== 'replaced') return [];
      const sore = openLesionOn(animal, block.foot, block.claw, i);
      if (sore === undefined) return [];
      return [
        warn(
          'block-on-sore-claw',
          [...path, 'claw'],
          `a block is ${block.event} on the ${block.claw} claw of ${block.foot}, where lesion ${sore} is open`,
          'correct the claw; a block goes on the claw that can carry her',
        ),
      ];
    }),
  );
}

function openLesionOn(animal: Animal, foot: Foot, claw: Claw, upTo: number): string | undefined {
  const looks = lesionLooks(animal).filter(
    ({ declared, visitAt, code }) =>
      declared.foot === foot &&
      declared.claw === claw &&
      visitAt <= upTo &&
      (familyOf(code) === 'wall' || familyOf(code) === 'ulcer'),
  );
  const last = new Map(looks.filter(({ found }) => found.state).map(({ name, found }) => [name, found]));
  return [...last].find(([, found]) => found.state === 'open' && !found.joined)?.[0];
}
