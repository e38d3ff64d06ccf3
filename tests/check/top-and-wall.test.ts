import { describe, expect, it } from 'vitest';
import { findingsOf } from './findings-of.js';

const lesion = '{ code: WL, foot: LH, claw: outer, site: white line rear, line: heel }';
const once = (found: string) =>
  findingsOf(`
lesions: { a: ${lesion} }
visits: [{ date: 2026-01-06, by: Orla Venn, kind: first, found: { a: ${found} } }]`);

const two = (line: string, first: string, second: string) =>
  findingsOf(`
lesions: { a: ${lesion}, b: { code: HFH, foot: LH, claw: outer, line: ${line} } }
visits:
  - { date: 2026-01-06, by: Orla Venn, kind: first, found: ${first} }
  - { date: 2026-02-03, by: Orla Venn, kind: recheck, found: ${second} }`);

const a = (top: number, wall = '') => `a: { state: open, top: ${top}, ${wall} tool: ruler }`;

const b = (wall: number) => `b: { state: open, top: 5, wall: ${wall}, tool: ruler }`;

describe('a top beyond the wall', () => {
  /*
   * By hand, wall 43: two rulers err together by √(2² + 2²) = 2.83, twice that 5.66, so to 48.66 it may be grown out.
   * Two callipers √2, twice that 2.83, to 45.83. By eye the wall 7, the top 12 % of
   * itself: 63.73 − 43 = 2·√((0.12·63.73)² + 7²) = 20.73, so to 63.73. A photo's top on a ruler's
   * wall √(3.5² + 2²) = 4.03, 8.06, to 51.06.
   */
  it.each([
    ['ruler', '', 48.6, 48.7],
    ['calliper', '', 45.8, 45.9],
    ['eye', '', 63.7, 63.8],
    ['photo', 'wall-tool: ruler,', 51, 51.1],
  ])('by %s%s may be grown out up to %d and is a slip from %d', (tool, wallTool, near, far) => {
    const at = (top: number) => once(`{ state: open, top: ${top}, wall: 43, ${wallTool} tool: ${tool} }`);
    expect(at(42.9)).toEqual([]);
    expect(at(43)).toEqual(['warning top-at-ground']);
    expect(at(near)).toEqual(['warning top-at-ground']);
    expect(at(far)).toEqual(['error top-beyond-wall']);
  });

  it('counts a tool that is not stated as a ruler', () => {
    expect(once('{ state: open, top: 48.6, wall: 43 }')).toEqual(['warning top-at-ground']);
    expect(once('{ state: open, top: 48.7, wall: 43 }')).toEqual(['error top-beyond-wall']);
  });

  it('is only asked about while the gap is covered, and not at all with a lowered or unmeasured wall', () => {
    expect(once('{ state: covered, top: 72, wall: 43, tool: ruler }')).toEqual(['warning top-at-ground']);
    expect(once('{ state: open, top: 72, wall: 43, wall-lowered: true, tool: ruler }')).toEqual([]);
    expect(once('{ state: open, top: 72, tool: ruler }')).toEqual([]);
    expect(once('{ state: healed, top: 41, wall: 43, tool: ruler }')).toEqual([]);
  });
});

describe('the wall a top is checked against', () => {
  it('is the latest on that foot, claw and line, under whichever lesion', () => {
    expect(two('heel', `{ ${a(12)}, ${b(43)} }`, `{ ${a(60)} }`)).toEqual(['error top-beyond-wall']);
    expect(two('abaxial', `{ ${a(12)}, ${b(43)} }`, `{ ${a(60)} }`)).toEqual([]);
    expect(two('heel', `{ ${a(12)}, ${b(43)} }`, `{ ${a(60)}, ${b(70)} }`)).toEqual([]);
  });

  it('is the one of the same look first, and never a later one', () => {
    expect(two('heel', `{ ${a(12, 'wall: 70,')}, ${b(43)} }`, `{ ${a(60, 'wall: 70,')}, ${b(43)} }`)).toEqual(
      [],
    );
    expect(two('heel', `{ ${a(60)} }`, `{ ${b(43)} }`)).toEqual([]);
  });
});
