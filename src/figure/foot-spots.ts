import type { Claw, Foot, Site, WallLine } from '../record/words.js';
import { type FootPoint, footShape, placeAside, placeBelow } from './foot-sheet.js';

/** One foot and the lesions in it. */
export interface FootMapInput {
  /** Unique on the page. */
  readonly id: string;
  readonly foot: Foot;
  readonly lesions: readonly FootMapLesion[];
}

export interface FootMapLesion {
  readonly lesion: string;
  /** Its full name, as the page has it. */
  readonly name: string;
  readonly claw?: Claw;
  readonly site?: Site;
  /** Healed, or followed under another name: drawn dotted and hollow where it was. */
  readonly healed: boolean;
  /** A measured gap in the wall. */
  readonly gap?: FootMapGap;
}

/** How far down the wall the top of a gap is, and where it was at first: horn carries it down. */
export interface FootMapGap {
  readonly line: WallLine;
  readonly wallMm: number;
  readonly topMm: number;
  /** Absent with one reading. */
  readonly firstMm?: number;
}

/** A mark for a lesion: where it sits now or, hollow, where it was. */
export interface FootSpot {
  readonly lesion: string;
  readonly x: number;
  readonly y: number;
  readonly was: boolean;
  /** Where it was before, to be joined to it by a line; no name of its own. */
  readonly from?: FootPoint;
}

/** Closer than this two marks would cover each other, px. */
const apart = 11;

/**
 * Where the marks of a foot are: each lesion at its site, and a measured gap also on its line at the height of its
 * top, with a hollow mark where the top was first. None for a lesion without a place, or of a claw that is not written.
 */
export function footSpots(input: FootMapInput): FootSpot[] {
  const spots = input.lesions.flatMap((lesion): FootSpot[] => {
    const top = topSpot(lesion, input);
    const site = siteSpot(lesion, input, top !== undefined);
    return [...(site ? [{ lesion: lesion.lesion, x: site[0], y: site[1], was: lesion.healed }] : []), ...(top ? [top] : [])]; // prettier-ignore
  });
  return spread(spots);
}

function siteSpot(
  { site, claw }: FootMapLesion,
  { foot }: FootMapInput,
  onLine: boolean,
): FootPoint | undefined {
  if (site === undefined) return undefined;
  const { below, side } = footShape();
  const between = below.both[site];
  if (between) return placeBelow(foot, undefined, between);
  const inFront = side.both[site];
  if (inFront) return placeAside(foot, 'outer', inFront);
  if (claw === undefined) return undefined;
  const sole = below.sites[site];
  if (sole) return placeBelow(foot, claw, sole);
  const wall = side.sites[site];
  return wall && !onLine ? placeAside(foot, claw, wall) : undefined;
}

/** On its line, as far down as the top has come. */
function topSpot({ lesion, claw, healed, gap }: FootMapLesion, { foot }: FootMapInput): FootSpot | undefined {
  const line = gap && footShape().side.wallLines[gap.line];
  if (!gap || !line || claw === undefined || gap.wallMm <= 0) return undefined;
  const at = (mm: number): FootPoint => {
    const share = Math.min(1, Math.max(0, mm / gap.wallMm));
    const [[x1, y1], [x2, y2]] = line;
    return placeAside(foot, claw, [x1 + (x2 - x1) * share, y1 + (y2 - y1) * share]);
  };
  const [x, y] = at(gap.topMm);
  const from = gap.firstMm === undefined ? undefined : at(gap.firstMm);
  const moved = from && Math.hypot(from[0] - x, from[1] - y) >= apart;
  return { lesion, x, y, was: healed, ...(moved ? { from } : {}) };
}

/** Marks on one place are side by side. */
function spread(spots: readonly FootSpot[]): FootSpot[] {
  return spots.map((spot, at) => {
    const before = spots.slice(0, at).filter(({ x, y }) => x === spot.x && y === spot.y).length;
    return { ...spot, x: spot.x + before * 17 };
  });
}
