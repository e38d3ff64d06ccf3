import { shown } from '../shown.js';
import type { Said } from './said.js';

/** ` #` in text without quotes: YAML would take the rest for a comment, and it would be lost. */
export function commentInText(name: string, comment: string): Said {
  return {
    id: 'yaml/comment-in-text',
    message: `${shown(comment.trim())} begins a comment and would be lost from \`${name}\`, expected text in quotes`,
    mend: 'put the whole text between straight quotes; a comment of your own goes on a line by itself',
  };
}
