import type { Keeping } from '../../keep/change.js';
import { endSteps, type EpisodeEnd } from '../../keep/end-episode.js';
import { openAnimal, openFarm } from '../../keep/find-kept.js';
import { stepsInRecord } from '../../record/record-step.js';
import { closingGaps } from '../../schedule/gaps/closing-gaps.js';
import { gapInWords } from '../../words/compose-gap.js';
import { wordsOf } from '../../words/words.js';
import type { Effects } from '../effects.js';
import { WrongUse } from '../exit-code.js';

/**
 * What the end of an episode would leave open is said before it is written: somebody at a terminal is asked, and
 * without one it is refused, unless `--even-so` was typed. In the same words as the book says it afterwards.
 *
 * Error: WrongUse where it is not to be ended; files that do not read are told of where the end is worked out
 */
export async function askEvenSo(
  keeping: Keeping,
  { farm, animal, end }: { readonly farm: string; readonly animal: string; readonly end: EpisodeEnd },
  { evenSo }: { readonly evenSo?: true },
  { dialogue, warn }: Effects,
): Promise<void> {
  const [opened, own] = [openAnimal(keeping, farm, animal), openFarm(keeping, farm)];
  if (opened.outcome !== 'open' || own.outcome !== 'open') return;
  const { record } = opened.kept;
  const steps = endSteps(record, end);
  if (!steps) return;
  const before = new Set(closingGaps(record, own.kept.record, keeping.today).map(({ path }) => path.join()));
  const missing = closingGaps(stepsInRecord(record, steps), own.kept.record, keeping.today)
    .filter(({ path }) => !before.has(path.join()))
    .map((gap) => gapInWords(wordsOf('en-GB'), record, gap))
    .map(({ message, close }) => `${message} ${close}`);
  if (missing.length === 0) return;
  if (evenSo) {
    for (const line of missing) warn(`${line}\n`);
    return;
  }
  if (!dialogue)
    throw new WrongUse(
      `${missing.join('\n')}\nnothing was written; with --even-so it is, and the book says so`,
    );
  dialogue.show(missing.join('\n'));
  const answer = await dialogue.choose('end the episode even so?', [
    { label: 'no', value: 'no' },
    { label: 'yes', value: 'yes' },
  ]);
  if (answer !== 'yes') throw new WrongUse('nothing was written');
}
