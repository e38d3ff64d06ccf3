import type { Dialogue } from '../../src/run/dialogue.js';

/** Somebody who types these lines, one a question, and writes what is shown at the end; what was shown and asked. */
export function typing(lines: readonly string[]): { dialogue: Dialogue; said: string[]; keys: () => number } {
  const said: string[] = [];
  const left = [...lines];
  let enters = 0;
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
    choose: (question, [first]) => {
      if (first?.value !== 'write')
        return Promise.reject(new Error(`no choice is offered here: ${question}`));
      enters += 1;
      return Promise.resolve(first.value);
    },
  };
  return { dialogue, said, keys: () => lines.reduce((sum, line) => sum + line.length + 1, enters) };
}
