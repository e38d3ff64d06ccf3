import type { WrapEvent } from '../../record/visit.js';
import type { FixtureEvent, Foot } from '../../record/words.js';
import { wrapsOn } from '../fixtures-on.js';
import type { Phrase } from '../phrase.js';
import type { VisitReader } from '../visit-reader.js';
import { askOn } from './ask-on.js';
import type { FixtureTold } from './fixture-told.js';
import { given } from '../../record/given.js';

/** What became of a wrap: on the foot said, or the one that only can be meant; else it is asked. */
export function readWrap(r: VisitReader, from: number, phrase: Phrase, told: FixtureTold): void {
  const on = wrapsOn(r.animal, r.date);
  const goesOn = phrase.value === 'on?' || phrase.value === 'fitted' || phrase.value === 'already on';
  const named = told.place?.feet[0];
  const spoken = r.subjectFoot();
  const known = goesOn || (spoken !== undefined && on.includes(spoken)) ? spoken : undefined;
  const foot: Foot | undefined = named ?? known ?? (goesOn || on.length !== 1 ? undefined : on[0]);
  if (foot === undefined) {
    r.ask(from, told.next, {
      id: 'which-foot',
      ask: 'which foot is the wrap on?',
      mend: 'name the foot, as in `wrap off RH`',
      replace: [phrase.next, phrase.next],
      choices: ['LF', 'RF', 'LH', 'RH'].map((one) => ({ label: one, text: ` ${one}` })),
    });
    return;
  }
  if (phrase.value === 'on?' && on.includes(foot)) return askOn(r, from, phrase, told, 'wrap');
  const event = (phrase.value === 'on?' ? 'fitted' : phrase.value) as FixtureEvent;
  const wrap: WrapEvent = { foot, event, ...given({ on: told.on }) };
  (r.draft.wraps ??= []).push(wrap);
  r.noteOn = (note) => (wrap.note = note);
  r.say(from, told.next, `wrap ${event}, ${foot}${told.on === undefined ? '' : `, on ${told.on}`}`);
}
