import type { BlockEvent } from '../../record/visit.js';
import type { Claw, FixtureEvent, Foot } from '../../record/words.js';
import { blocksOn } from '../fixtures-on.js';
import type { Phrase } from '../phrase.js';
import type { VisitReader } from '../visit-reader.js';
import { askOn } from './ask-on.js';
import type { FixtureTold } from './fixture-told.js';
import { given } from '../../record/given.js';

/** What became of a block: on the claw said, or the one that only can be meant; else it is asked. */
export function readBlock(r: VisitReader, from: number, phrase: Phrase, told: FixtureTold): void {
  const on = blocksOn(r.animal, r.date);
  const asked = told.place;
  const foot = asked?.feet[0] ?? r.subjectFoot();
  const said = asked?.claw === 'other' ? otherClaw(r, foot) : asked?.claw;
  const there = on.filter(
    (one) => (foot === undefined || one.foot === foot) && (said === undefined || one.claw === said),
  );
  const goesOn = phrase.value === 'on?' || phrase.value === 'fitted' || phrase.value === 'already on';
  const [one] = there.length > 0 || asked?.feet[0] !== undefined || said !== undefined ? there : on;
  const sure = !goesOn && (there.length === 1 || (there.length === 0 && on.length === 1));
  const at =
    foot !== undefined && said !== undefined
      ? { foot, claw: said }
      : sure && one
        ? { foot: one.foot, claw: one.claw }
        : undefined;
  if (!at) return askClaw(r, from, phrase, told, foot, said);
  if (phrase.value === 'on?' && there.length > 0) return askOn(r, from, phrase, told, 'block');
  const event = (phrase.value === 'on?' ? 'fitted' : phrase.value) as FixtureEvent;
  const block: BlockEvent = {
    ...at,
    event,
    ...given({ material: told.material, on: told.on }),
  };
  (r.draft.blocks ??= []).push(block);
  r.noteOn = (note) => (block.note = note);
  const rest = [told.material, told.on === undefined ? '' : `on ${told.on}`].filter(Boolean).join(', ');
  r.say(from, told.next, `block ${event}, ${at.foot} ${at.claw} claw${rest ? `, ${rest}` : ''}`);
}

/** The claw beside the sore one, where the lesion spoken of is on one. */
function otherClaw(r: VisitReader, foot: Foot | undefined): Claw | undefined {
  const subject = r.subject.is === 'lesion' ? r.declared(r.subject.name) : undefined;
  if (!subject?.claw || subject.foot !== foot) return undefined;
  return subject.claw === 'outer' ? 'inner' : 'outer';
}

function askClaw(
  r: VisitReader,
  from: number,
  phrase: Phrase,
  told: FixtureTold,
  foot: Foot | undefined,
  claw: Claw | undefined,
): void {
  const feet = foot === undefined ? (['LF', 'RF', 'LH', 'RH'] as const) : [foot];
  const claws = claw === undefined ? (['inner', 'outer'] as const) : [claw];
  r.ask(from, told.next, {
    id: 'which-claw',
    ask: 'which claw is the block on?',
    mend: 'name the claw that carries it, as in `block off LH inner`',
    replace: told.place ? [from, told.next] : [phrase.next, phrase.next],
    choices: feet.flatMap((one) =>
      claws.map((side) => ({
        label: `${one} ${side}`,
        text: told.place
          ? `block ${phrase.value === 'on?' ? 'on' : phrase.value} ${one} ${side}`
          : ` ${one} ${side}`,
      })),
    ),
  });
}
