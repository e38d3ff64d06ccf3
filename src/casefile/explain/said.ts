import { messageOf } from '../../problem/message.js';
import type { Message } from '../../problem/problem.js';
import { shown } from '../finding.js';
import { caseFormat } from '../../record/animal.js';

/** Why leaving a key out will not do: the value is an entry of a list, or the key must stand. */
export type MustStand = 'entry' | 'required';

/** A sign or a word for "not known" as a value: absent is the way to say so, unless it must stand. */
export function notKnown(name: string, value: unknown, expected: string, must?: MustStand): Message {
  return messageOf('value/not-known', { name, found: shown(value), expected }, must);
}

/** A file from a later Growdown: nothing is wrong with it, and writing an older number into it would make it wrong. */
export function newerFormat(name: string, version: number): Message {
  return messageOf('value/format-newer', { name, version, most: caseFormat });
}

/** ` #` in text without quotes: YAML would take the rest for a comment, and it would be lost. */
export function commentInText(name: string, comment: string): Message {
  return messageOf('yaml/comment-in-text', { name, found: shown(comment.trim()) });
}
