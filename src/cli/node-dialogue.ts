import type { Dialogue } from './dialogue.js';

/** Questions in a real terminal; undefined where either end is none, since the questions would then end the run in silence. */
export function nodeDialogue(): Dialogue | undefined {
  if (!process.stdin.isTTY || !process.stdout.isTTY) return undefined;
  return {
    choose: async (message, choices) => {
      const { isCancel, select } = await import('@clack/prompts');
      const options = choices.map(({ label, value }) => ({ label, value }));
      const answer = await select<string>({ message, options });
      return isCancel(answer) ? undefined : answer;
    },
    write: async (message) => {
      const { isCancel, text } = await import('@clack/prompts');
      const answer = await text({ message });
      return isCancel(answer) || answer === undefined || answer.trim() === '' ? undefined : answer;
    },
  };
}
