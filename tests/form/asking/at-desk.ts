import type { Dialogue } from '../../../src/run/dialogue.js';

/**
 * Somebody at the desk: each text is typed at the next question, again where it was refused, or chosen by its label; what
 * was shown, asked and refused, in order.
 */
export function atDesk(...texts: readonly string[]): { dialogue: Dialogue; said: string[]; left: string[] } {
  const said: string[] = [];
  const left = [...texts];
  const dialogue: Dialogue = {
    show: (text) => void said.push(text),
    line: async (question, check, before = '') => {
      said.push(before === '' ? question : `${question} [${before}]`);
      for (;;) {
        const typed = left.shift();
        const wrong = typed === undefined ? undefined : check(typed);
        if (wrong === undefined) return await Promise.resolve(typed);
        said.push(`✗ ${wrong}`);
      }
    },
    choose: async (question, choices) => {
      said.push(question);
      const label = left.shift();
      const chosen = choices.find((one) => one.label === label);
      if (label !== undefined && !chosen)
        throw new Error(`${question}\n“${label}” is none of ${choices.map((one) => one.label).join(' | ')}`);
      return await Promise.resolve(chosen?.value);
    },
  };
  return { dialogue, said, left };
}
