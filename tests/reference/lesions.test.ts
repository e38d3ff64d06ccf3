import { describe, expect, it } from 'vitest';
import { lesionCodes } from '../../src/record/words.js';
import { familyOf, isWallGap, lesionKinds, usualLine } from '../../src/reference/lesions.js';

describe('the kinds of lesion', () => {
  it('sorts the codes into families as the case format does', () => {
    expect(lesionCodes.filter(isWallGap)).toEqual(['HFA', 'HFH', 'HFV', 'WL', 'WLA', 'WLF']);
    expect(lesionCodes.filter((code) => familyOf(code) === 'ulcer')).toEqual(['BU', 'SU', 'TU']);
    expect(lesionCodes.filter((code) => lesionKinds[code].states.has('present'))).toEqual([
      'AC', 'CC', 'CD', 'HHE', 'ID', 'IH', 'IP', 'SC', 'SH', 'SHC', 'SHD', 'SW', 'TS',
    ]); // prettier-ignore
  });

  it('gives no wall length to a sole lesion, a bent wall or dead tissue', () => {
    for (const code of ['SU', 'DS', 'CD', 'TN', 'DD'] as const)
      expect(lesionKinds[code].measures.has('top')).toBe(false);
    expect(lesionKinds.HFA.measures.has('length')).toBe(false);
    expect(lesionKinds.WL.measures.has('top')).toBe(true);
  });

  it('names every code differently', () => {
    expect(new Set(lesionCodes.map((code) => lesionKinds[code].name)).size).toBe(lesionCodes.length);
  });

  it('knows the usual line of a site, and none on the sole', () => {
    expect(usualLine('white line rear')).toBe('heel');
    expect(usualLine('sole')).toBeUndefined();
  });
});
