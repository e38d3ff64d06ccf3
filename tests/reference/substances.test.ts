import { describe, expect, it } from 'vitest';
import { isMedicine, substancesIn } from '../../src/reference/substances.js';

describe('the substance of a medicine', () => {
  it.each([
    ['Oxytetracycline hydrochloride 3 %', 'oxytetracycline antimicrobial'],
    ['procaine benzylpenicillin', 'benzylpenicillin antimicrobial'],
    ['penicillin G procaine', 'penicillin antimicrobial'],
    ['sulphadiazine and trimethoprim', 'sulfadiazine antimicrobial, trimethoprim antimicrobial'],
    ['cephapirin', 'cefapirin antimicrobial'],
    ['KETOPROFEN', 'ketoprofen anti-inflammatory'],
    ['dexamethasone', 'dexamethasone anti-inflammatory'],
    ['lidocaine', 'lidocaine pain relief'],
    ['salicylic acid', ''],
    ['copper sulphate', ''],
    ['chlorotetra', ''],
    ['zinc oxide, tar', ''],
    ['', ''],
  ])('in %j: %s', (text, found) => {
    expect(
      substancesIn(text)
        .map(({ name, group }) => `${name} ${group}`)
        .join(', '),
    ).toBe(found);
  });

  it('makes it a medicine whatever its class says', () => {
    expect(isMedicine({ product: 'x', class: 'not a medicine', active: 'tylosin' })).toBe(true);
    expect(isMedicine({ product: 'tylosin spray', class: 'not a medicine' })).toBe(true);
    expect(isMedicine({ product: 'x', class: 'not a medicine', active: 'tar' })).toBe(false);
    expect(isMedicine({ product: 'x', class: 'not sure' })).toBe(true);
    expect(isMedicine({ product: 'x' })).toBe(true);
  });
});
