import { isGroup } from '../as-wanted.js';
import { equals, gluedColon, noSpaceAfterHyphen } from '../slips/line-slips.js';
import { lineAt } from '../slips/slip.js';
import type { Stretch } from '../yaml-places.js';
import { commentInText } from './comment-in-text.js';
import type { Said } from './said.js';

/** `{ top: 2,5 }` reads as `top: 2` and a key `5` that holds nothing. */
export function decimalCommaInBraces(yaml: string, key: Stretch): (Said & { stretch: Stretch }) | undefined {
  const before = /([a-z][a-z-]*):\s*(-?\d+),$/.exec(yaml.slice(Math.max(0, key.start - 40), key.start));
  const digits = yaml.slice(key.start, key.end);
  const [, name, whole] = before ?? [];
  if (whole === undefined || !/^\d+$/.test(digits)) return undefined;
  return {
    id: 'value/decimal-comma',
    message: `${name} is \`${whole},${digits}\`, expected a decimal point`,
    mend: `write \`${whole}.${digits}\``,
    stretch: { start: key.start - whole.length - 1, end: key.end },
  };
}

/** A line such as `gait:2` under a value without quotes is taken for more of that value. */
export function ranIntoNextLine(yaml: string, value: Stretch): (Said & { stretch: Stretch }) | undefined {
  if (/^["'[{|>]/.test(yaml.slice(value.start, value.start + 1))) return undefined;
  const next = yaml.indexOf('\n', value.start) + 1;
  if (next === 0 || next >= value.end) return undefined;
  const line = lineAt(yaml, next);
  return gluedColon(line) ?? equals(line);
}

/** `note: #2 is better` holds nothing: all of it is a comment. */
export function swallowedByComment(yaml: string, key: Stretch): (Said & { stretch: Stretch }) | undefined {
  const [all, gap, comment] = /^(\s*:[ \t]+)(#[^\n]*)/.exec(yaml.slice(key.end, key.end + 500)) ?? [];
  if (all === undefined || gap === undefined || comment === undefined || /^#\s/.test(comment))
    return undefined;
  const start = key.end + gap.length;
  return {
    ...commentInText(yaml.slice(key.start, key.end), comment),
    stretch: { start, end: start + comment.length },
  };
}

/** `-foot: LH` alone, or `-LH`, parses: as a key or a text that begins with a hyphen, where a list is wanted. */
export function gluedHyphenIn(value: unknown): { said: Said; key?: string } | undefined {
  if (typeof value === 'string') {
    const [, text] = /^-([A-Za-z].*)$/s.exec(value) ?? [];
    return text === undefined ? undefined : { said: noSpaceAfterHyphen(value, `- ${text}`) };
  }
  const key = isGroup(value) ? Object.keys(value).find((each) => /^-[a-z]/.test(each)) : undefined;
  if (key === undefined) return undefined;
  return { said: noSpaceAfterHyphen(`${key}:`, `- ${key.slice(1)}: …`), key };
}
