import { gaitScaleOn } from '../../record/gait-scale-on.js';
import { gaitScale } from '../../reference/scales.js';
import { nameSaid } from '../place-said.js';
import { noteWords } from '../note-words.js';
import { isDoubt, skip } from '../note-text.js';
import { numberSaid } from '../number-said.js';
import { type Phrase, phraseAt } from '../phrase.js';
import type { VisitReader } from '../visit-reader.js';

const between = new Set(noteWords['measure-fillers']);

function numberAfter(r: VisitReader, at: number): ReturnType<typeof numberSaid> {
  const { tokens } = r.note;
  let next = at;
  while (between.has(tokens[next]?.bare ?? '') || /^[:=]$/.test(tokens[next]?.text ?? '')) next += 1;
  return isDoubt(tokens[next] ?? tokens[at - 1]!) ? undefined : numberSaid(tokens, next);
}

/** `mobility 1 off block`, `locomotion score 3 out of 5, scored by Nan`: her walk, on the scale of the farm. */
export function readGait(r: VisitReader, at: number, phrase: Phrase): number | undefined {
  const { tokens } = r.note;
  const said = numberAfter(r, phrase.next);
  if (!said) return undefined;
  const outOf = outOfSaid(r, said.next);
  let next = outOf?.next ?? said.next;
  const scale = gaitScaleOn(r.farm.farm, r.date);
  const facts = scale && gaitScale[scale];
  const otherWord = facts && phrase.value !== 'any' && phrase.value !== facts.word;
  const offScale = facts && (said.value < facts.lowest || said.value > facts.highest);
  if (otherWord || offScale || (facts && outOf && outOf.highest !== facts.highest)) {
    r.ask(at, next, {
      id: 'other-scale',
      ask: `the farm is scored ${facts.lowest} to ${facts.highest} (${facts.name}): is this score on that scale?`,
      mend: `write \`score\` and a number from ${facts.lowest} to ${facts.highest}; scores are never converted`,
      choices: offScale ? [] : [{ label: `yes, ${said.value} on that scale`, text: `score ${said.value}` }],
    });
    return next;
  }
  r.set('gait', said.value, at, next, `gait ${said.value}`);
  const walked = phraseAt(tokens, skip(tokens, next), 'block-walked');
  if (walked) {
    const from = skip(tokens, next);
    r.set('on-block', walked.value === 'on', from, walked.next, `scored ${walked.value} the block`);
    next = walked.next;
  }
  return scorerAfter(r, next) ?? next;
}

function outOfSaid(r: VisitReader, at: number): { highest: number; next: number } | undefined {
  const { tokens } = r.note;
  const stroke = tokens[at]?.text === '/';
  const words = tokens[at]?.bare === 'out' && tokens[at + 1]?.bare === 'of';
  const said = stroke || words ? numberSaid(tokens, at + (stroke ? 1 : 2)) : undefined;
  return said && { highest: said.value, next: said.next };
}

/** `by Nan` right behind a score. */
function scorerAfter(r: VisitReader, at: number): number | undefined {
  const from = skip(r.note.tokens, at);
  const by = phraseAt(r.note.tokens, from, 'scorer');
  const name = by && nameSaid(r.note.tokens, by.next, r.people);
  if (!name) return undefined;
  r.set('gait-by', name.name, from, name.next, `scored by ${name.name}`);
  return name.next;
}

export function readScoredBy(r: VisitReader, at: number, phrase: Phrase): number | undefined {
  const name = nameSaid(r.note.tokens, phrase.next, r.people);
  if (!name) return undefined;
  r.set('gait-by', name.name, at, name.next, `scored by ${name.name}`);
  return name.next;
}

export function readWalks(r: VisitReader, at: number, { value, next }: Phrase): number {
  r.set('on-block', value === 'on', at, next, `scored ${value} the block`);
  return next;
}

export function readCondition(r: VisitReader, at: number, phrase: Phrase): number | undefined {
  const said = numberAfter(r, phrase.next);
  if (!said) return undefined;
  r.set('condition', said.value, at, said.next, `condition ${said.value}`);
  return said.next;
}

/** `weight 655 kg`. Pounds are asked about. */
export function readWeight(r: VisitReader, at: number, phrase: Phrase): number | undefined {
  const said = numberAfter(r, phrase.next);
  if (!said) return undefined;
  const unit = r.note.tokens[said.next]?.bare ?? '';
  const pounds = ['lb', 'lbs', 'pound', 'pounds'].includes(unit);
  const next = pounds || ['kg', 'kgs', 'kilo', 'kilos'].includes(unit) ? said.next + 1 : said.next;
  if (pounds) r.ask(at, next, { id: 'pounds', ask: 'a weight in pounds', mend: 'write it in kg' });
  else r.set('weight', said.value, at, next, `weight ${said.value} kg`);
  return next;
}
