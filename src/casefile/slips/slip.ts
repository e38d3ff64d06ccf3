import type { Said } from '../explain/said.js';
import type { Stretch } from '../yaml-places.js';

/** A slip of the pen found in the front matter's text itself, with where it stands. */
export interface Slip extends Said {
  readonly stretch: Stretch;
}

/** One line of the front matter: its offset and its text. */
export interface YamlLine {
  readonly start: number;
  readonly text: string;
}

/** Looks at one line for one kind of slip. */
export type LineSlip = (line: YamlLine) => Slip | undefined;

/** The line an offset stands on. */
export function lineAt(yaml: string, offset: number): YamlLine {
  const start = offset === 0 ? 0 : yaml.lastIndexOf('\n', offset - 1) + 1;
  const end = yaml.indexOf('\n', start);
  return { start, text: yaml.slice(start, end === -1 ? yaml.length : end).replace(/\r$/, '') };
}

/** A stretch within a line. */
export function within(line: YamlLine, from: number, length: number): Stretch {
  return { start: line.start + from, end: line.start + from + Math.max(1, length) };
}
