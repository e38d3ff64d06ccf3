import type { Ask } from './effects.js';

/** Questions in a terminal. The library is loaded when the first is asked. */
export const terminalAsk: Ask = {
  show: (text) => void process.stdout.write(`${text}\n`),
  line: async (message, check) => {
    const { isCancel, text } = await import('@clack/prompts');
    const typed = await text({ message, validate: (given) => check(given ?? '') });
    return isCancel(typed) ? undefined : (typed ?? '');
  },
};
