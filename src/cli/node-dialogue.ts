import type { Dialogue } from './dialogue.js';
import { wrapped } from './wrapped.js';

/**
 * Questions in a real terminal; undefined where either end is none, since the questions would then end the run in
 * silence. The library is loaded when the first is asked.
 */
export function nodeDialogue(): Dialogue | undefined {
  if (!process.stdin.isTTY || !process.stdout.isTTY) return undefined;
  return {
    show: (text) => void process.stdout.write(`${wrapped(text, process.stdout.columns || 80)}\n`),
    line: async (message, check) => {
      const { isCancel, text } = await import('@clack/prompts');
      const typed = await text({ message, validate: (given) => check(given ?? '') });
      return isCancel(typed) ? undefined : (typed ?? '');
    },
    choose: async (message, choices) => {
      const { isCancel, select } = await import('@clack/prompts');
      const options = choices.map(({ label, value }) => ({ label, value }));
      const answer = await select<string>({ message, options });
      return isCancel(answer) ? undefined : answer;
    },
  };
}
