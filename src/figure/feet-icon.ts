import { type Claw, feet, type Foot } from '../record/words.js';
import { escapeText, px } from './svg-mark.js';

const [width, height] = [46, 40];

/** Four feet seen from above, the animal's head up, the claws named filled: whose foot at a glance. */
export function feetIcon(
  marked: readonly { readonly foot: Foot; readonly claw?: Claw | undefined }[],
  title: string,
): string {
  const claws = feet.flatMap((foot) => {
    const [left, top] = [foot.startsWith('L') ? 12 : 34, foot.endsWith('F') ? 10 : 30];
    return [-5, 5].map((off) => {
      // Of a left foot the outer claw is the left one.
      const claw: Claw = foot.startsWith('L') === off < 0 ? 'outer' : 'inner';
      const isMarked = marked.some(
        (one) => one.foot === foot && (one.claw === undefined || one.claw === claw),
      );
      return `<ellipse class="${isMarked ? 'solid' : 'skin'}" cx="${px(left + off)}" cy="${px(top)}" rx="4" ry="7.5"/>`;
    });
  });
  return (
    `<svg class="fig feet" role="img" width="${width}" height="${height}" viewBox="0 0 ${width} ${height}"` +
    ` aria-label="${escapeText(title)}">${claws.join('')}</svg>`
  );
}
