import { expect, test } from 'vitest';
import { readNote } from '../../src/note/read-note.js';
import { noteContext } from './two-farms.js';

const context = noteContext('2026-06-16');

function drafted(said: string): Record<string, unknown> {
  const [only] = readNote(`Quernholt 15 June\n${said}`, context).animals;
  expect(only?.questions).toEqual([]);
  return only!.draft as unknown as Record<string, unknown>;
}

/** Small words that turn what is said round, each with what a colleague would write down. */
test.each([
  ['a score alone between stops', '2117 LH gap 21/43. 1.', { gait: 1 }],
  ['a score out of the highest', '2117. 2 out of 3. LH gap 21/43', { gait: 2 }],
  ['a score alone, and the next cow below', '2117 LH gap 21/43, block stays. 0\n2133 mob 1', { gait: 0 }],
  [
    'a score said of her behind the block',
    "2117 LH gap 21/43, block stays, left it on she's a 1",
    { gait: 1 },
  ],
  ['a wrap on a side that is not the last spoken of', '2133 LH wart M2, RH wart M3. wrapped left', { wraps: [{ foot: 'LH', event: 'fitted' }] }], // prettier-ignore
  ['a wrap that was already off', '2133 RH wart M3, wrap already off', { wraps: [{ foot: 'RH', event: 'lost' }] }], // prettier-ignore
  ['the material in brackets', '2117 LH new block on (plastic)', { blocks: [{ foot: 'LH', claw: 'inner', event: 'fitted', material: 'plastic' }] }], // prettier-ignore
  ['why it came off', '2117 took the block off cause it was ready to come off anyhow', { blocks: [{ foot: 'LH', claw: 'inner', event: 'removed' }] }], // prettier-ignore
  ['taken away, with the block in between', '2117 took the block away', { blocks: [{ foot: 'LH', claw: 'inner', event: 'removed' }] }], // prettier-ignore
  ['the farmer is who will ask', "2117 LH gap 21/43. farmer's going to ask the vet about pain relief", { 'pain-relief': 'advised' }], // prettier-ignore
  ['two lengths in inches, with a space', '2117 LH gap 1 1/8 / 1 11/16', { found: { a: { state: 'open', top: 28.6, wall: 42.9 } } }], // prettier-ignore
  ['an inch called in', '2117 LH gap, top 5/8 in of a 1 3/4 wall', { found: { a: { state: 'open', top: 15.9, wall: 44.5 } } }], // prettier-ignore
  ['one length out of another', '2117 LH gap 21 out of 43', { found: { a: { state: 'open', top: 21, wall: 43 } } }], // prettier-ignore
  ['a crack for the only gap there', '2117 LH crack 21/43', { found: { a: { state: 'open', top: 21, wall: 43 } } }], // prettier-ignore
  ['a length about as long as her wall', '2117 LH gap 21 down, 43 long', { found: { a: { state: 'open', top: 21, wall: 43 } } }], // prettier-ignore
  ['her ulcer, behind the block', '2086 LH gap 21/43, ulcer too. block off. the ulcer is covered', { found: { a: { state: 'open' }, b: { state: 'covered' } } }], // prettier-ignore
])('%s', (_, said, facts) => {
  expect(drafted(said)).toMatchObject(facts);
});

test('a state behind a word nobody knows is not put on the gap just measured', () => {
  const { found } = drafted('2086 LH gap 21/43. block off. the ucxer is covered');
  expect(found).toMatchObject({ a: { state: 'open', top: 21 } });
});

test('no more of a sign is none of it', () => {
  const { found } = drafted('2117 LH gap 21/43. still smells, but no more pus');
  expect(found).toMatchObject({ a: { signs: ['smell'] } });
});

test('a routine visit to come does not make this one routine', () => {
  expect(drafted('2117 LH gap 21/43, the rest at the next routine')).toMatchObject({ kind: 'recheck' });
});

test('a list of figures is no score', () => {
  expect(drafted('2117 LH gap 21/43. feet 1, 2, 3 done')).not.toHaveProperty('gait');
  expect(drafted('1. 2117 LH gap 21/43')).not.toHaveProperty('gait');
});

test('the tenth of the sixth is a day, and a name under regards signs', () => {
  const [only] = readNote('Quernholt, tenth of the sixth\n2117 LH gap 21/43\nRegards Tam', context).animals;
  expect(only).toMatchObject({ date: '2026-06-10', draft: { by: 'Tam Brickles' } });
});
