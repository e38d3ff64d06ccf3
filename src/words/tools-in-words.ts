import type { Tool } from '../record/words.js';
import type { Words } from './words.js';

/** The tools some readings were taken with, each once. @example toolsInWords(words, [{ tool: 'ruler' }, { tool: 'tape' }, { tool: 'ruler' }]) // → 'ruler and tape' */
export function toolsInWords(words: Words, readings: readonly { readonly tool?: Tool }[]): string {
  const tools = [...new Set(readings.map(({ tool }) => tool))].map((tool) =>
    tool ? words.say(`vocabulary.tool.${tool}`) : words.say('standing.basis.no-tool'),
  );
  return tools.reduce((first, second) => words.say('standing.basis.tools-two', { first, second }));
}
