import type { CalendarDay } from '../record/calendar-day.js';
import type { EpisodeResult } from '../record/words.js';
import type { Keeping, Worked } from './change.js';
import { cannot } from './change.js';
import { goneResults } from '../record/gone-results.js';
import { openAnimal } from './find-kept.js';
import type { Step } from '../record/record-step.js';
import type { Animal } from '../record/animal.js';
import { workOutSteps } from './work-out.js';

export interface EpisodeEnd {
  readonly ended: CalendarDay;
  readonly result: EpisodeResult;
  /** The day the new keeper was told what is withheld and what is on her feet. */
  readonly 'told-in-writing'?: CalendarDay | undefined;
}

/** A run of trouble ended: the day and what became of her. A file without episodes has one, open, and gets it written. */
export function closeCase(keeping: Keeping, farm: string, animal: string, end: EpisodeEnd): Worked {
  const opened = openAnimal(keeping, farm, animal);
  if (opened.outcome !== 'open') return opened;
  const { kept } = opened;
  const steps = endSteps(kept.record, end);
  if (!steps)
    return cannot(
      `the last episode in ${kept.file} ended ${kept.record.episodes?.at(-1)?.ended} already, expected an open one; new trouble is \`growdown reopen ${farm}/${animal}\`, a wrong end is put right with \`growdown correct\``,
    );
  return workOutSteps({ kept, steps }, { what: `end of ${end.ended}`, farms: [farm] }, keeping);
}

/** Undefined where the last episode has ended. */
export function endSteps({ episodes = [] }: Animal, end: EpisodeEnd): Step[] | undefined {
  const said = Object.entries(end).filter(([, value]) => value !== undefined);
  const last = episodes.length - 1;
  if (last < 0) return [{ put: 'entry', path: ['episodes'], index: 0, value: Object.fromEntries(said) }];
  if (episodes[last]?.ended !== undefined) return undefined;
  const path = ['episodes', last];
  return said.map(([key, value]) => ({ put: 'key', path, key, value }));
}

/** New trouble after an end: an episode of its own. */
export function reopenCase(
  keeping: Keeping,
  farm: string,
  animal: string,
  begin: { readonly 'lame-since'?: CalendarDay; readonly 'told-by'?: string },
): Worked {
  const opened = openAnimal(keeping, farm, animal);
  if (opened.outcome !== 'open') return opened;
  const { kept } = opened;
  const { episodes = [] } = kept.record;
  const last = episodes.at(-1);
  if (last?.ended === undefined)
    return cannot(`the case in ${kept.file} is open, expected one that has ended; nothing was changed`);
  if (last.result !== undefined && goneResults.has(last.result))
    return cannot(
      `she is gone by ${kept.file}: ${last.result} on ${last.ended}; put that right first where it is wrong (\`growdown correct ${farm}/${animal} episodes.${episodes.length}.result …\`). Another animal of her number is \`growdown start ${farm}/${animal}-2\``,
    );
  return workOutSteps(
    { kept, steps: [{ put: 'entry', path: ['episodes'], index: episodes.length, value: begin }] },
    { what: 'a new episode', farms: [farm] },
    keeping,
  );
}
