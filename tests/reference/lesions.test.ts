import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { lesionCodes } from '../../src/record/words.js';
import { familyOf, hasTrait, isWallGap, lesionKinds, usualLine } from '../../src/reference/lesions.js';

describe('the kinds of lesion', () => {
  it('sorts the codes into families as the case format does', () => {
    for (const code of ['HFA', 'HFH', 'HFV', 'WL', 'WLA', 'WLF'] as const) expect(isWallGap(code)).toBe(true);
    for (const code of ['BU', 'SU', 'TU'] as const) expect(familyOf(code)).toBe('ulcer');
    for (const code of lesionCodes)
      expect(lesionKinds[code].states.has('present')).toBe(familyOf(code) === 'present');
  });

  it('says what sets single kinds apart', () => {
    const having = (trait: Parameters<typeof hasTrait>[1]) =>
      lesionCodes.filter((code) => hasTrait(code, trait));
    expect(having('fissure')).toEqual(['HFA', 'HFH', 'HFV']);
    expect(having('from the coronet')).toEqual(['HFA', 'HFV']);
    expect(having('thin or bruised')).toEqual(['SH', 'SHC', 'SHD', 'TS']);
    expect(having('foul')).toEqual(['IP']);
    expect(having('at the toe')).toEqual(['TU']);
  });

  it('misses none, and knows none that the format does not', () => {
    const { lesions } = JSON.parse(readFileSync('shared/lesions.json', 'utf8')) as { lesions: object };
    expect(Object.keys(lesions).toSorted()).toEqual(lesionCodes.toSorted());
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
