/** Room taken in a drawing, px. */
export interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** True where two boxes share any room. */
export function overlaps(a: Box, b: Box): boolean {
  return a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;
}

const tagHeight = 16;
/** Directions tried, right first, and how much further out each time. */
const directions = [[1, 0], [-1, 0], [0, 1], [0, -1], [1, 1], [-1, 1], [1, -1], [-1, -1]] as const; // prettier-ignore
const furtherPx = 10;

/**
 * A place beside each mark for its name, so that no name covers another, a mark or what is `taken`: the nearest free
 * one of eight directions, then further out. With no room at all it is where it last tried.
 */
export function placeTags(
  marks: readonly { readonly x: number; readonly y: number; readonly width: number }[],
  taken: readonly Box[],
  sheet: { readonly width: number; readonly height: number },
  dotPx: number,
): Box[] {
  const dots = marks.map(({ x, y }) => ({ x: x - dotPx, y: y - dotPx, width: 2 * dotPx, height: 2 * dotPx }));
  const full: Box[] = [...taken, ...dots];
  return marks.map(({ x, y, width }) => {
    let box: Box = { x, y, width, height: tagHeight };
    for (let out = dotPx + 3; out < sheet.width; out += furtherPx)
      for (const [right, down] of directions) {
        box = {
          x: x + right * out + (right < 0 ? -width : right === 0 ? -width / 2 : 0),
          y: y + down * out + (down < 0 ? -tagHeight : down === 0 ? -tagHeight / 2 : 0),
          width,
          height: tagHeight,
        };
        const inside =
          box.x >= 0 && box.y >= 0 && box.x + width <= sheet.width && box.y + tagHeight <= sheet.height;
        if (inside && !full.some((other) => overlaps(other, box))) {
          full.push(box);
          return box;
        }
      }
    full.push(box);
    return box;
  });
}
