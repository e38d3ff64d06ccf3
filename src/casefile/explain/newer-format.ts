import { caseFormat } from '../../record/animal.js';
import type { Said } from './said.js';

/** A file from a later Growdown: nothing is wrong with it, and writing an older number into it would make it wrong. */
export function newerFormat(name: string, version: number): Said {
  return {
    id: 'value/format-newer',
    message: `${name} is \`${version}\`, a later version of the case format than this program reads, expected ${caseFormat} or less`,
    mend: 'leave the file as it is and read it with a newer Growdown',
  };
}
