import type { Dialogue } from '../../src/run/dialogue.js';

/** Somebody who types these lines, one a question, and what was shown and asked. */
export function typing(lines: readonly string[]): { dialogue: Dialogue; said: string[]; keys: () => number } {
  const said: string[] = [];
  const left = [...lines];
  const dialogue: Dialogue = {
    show: (text) => void said.push(text),
    line: async (question, check) => {
      said.push(question);
      const typed = left.shift();
      if (typed === undefined) return undefined;
      const wrong = check(typed);
      if (wrong !== undefined) throw new Error(`${question}\n${typed}: ${wrong}`);
      return typed;
    },
    choose: (question) => Promise.reject(new Error(`no choice is offered here: ${question}`)),
  };
  return { dialogue, said, keys: () => lines.reduce((sum, line) => sum + line.length + 1, 0) };
}
