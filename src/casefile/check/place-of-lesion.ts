import type { Animal } from '../../record/animal.js';
import type { Lesion } from '../../record/lesion.js';
import type { LesionCode } from '../../record/words.js';
import { isWallGap, lesionKinds, usualLine } from '../../reference/lesions.js';
import type { Finding } from '../finding.js';
import { refuse, warn } from './finding-at.js';
import { lesionLooks } from './look.js';
import { oneOf } from './one-of.js';

/** Where a lesion is: enough to read a wall length by, and a place its code is found at. */
export function checkPlaceOfLesion(animal: Animal): Finding[] {
  const looks = lesionLooks(animal);
  return Object.entries(animal.lesions).flatMap(([name, lesion]) => {
    const own = looks.filter((look) => look.name === name);
    const codes = [lesion.code, ...own.map(({ code }) => code)];
    const first = own.find(({ found, code }) => isWallGap(code) && found.top !== undefined);
    return [
      ...(first ? lineOfTop(name, lesion, first.visit.date) : []),
      ...lineOffWall(name, lesion, codes),
      ...siteOfCode(name, lesion),
      ...lineOfSite(name, lesion),
    ];
  });
}

function lineOfTop(name: string, lesion: Lesion, date: string): Finding[] {
  return (['claw', 'line'] as const)
    .filter((key) => lesion[key] === undefined)
    .map((key) =>
      refuse(
        `${key}-missing`,
        ['lesions', name],
        `lesion ${name} has a top on ${date} and no ${key}, expected ${
          key === 'claw' ? 'inner or outer' : 'dorsal, abaxial, heel or axial'
        }`,
        key === 'claw' ? 'write the claw it is on' : 'write the line the lengths are read on',
        'key',
      ),
    );
}

function lineOffWall(name: string, { line }: Lesion, codes: readonly LesionCode[]): Finding[] {
  const code = codes.find((each) => !isWallGap(each));
  if (!line || code === undefined || codes.some(isWallGap)) return [];
  return [
    refuse(
      'line-not-for-code',
      ['lesions', name, 'line'],
      `lesion ${name} has the line ${line}, which does not belong to ${lesionKinds[code].name} (${code}): no wall length is read on it`,
      'take `line` out, or correct the code',
      'key',
    ),
  ];
}

function siteOfCode(name: string, { site, code }: Lesion): Finding[] {
  const { sites, name: fullName } = lesionKinds[code];
  if (!site || !sites || sites.has(site)) return [];
  return [
    warn(
      'site-unusual',
      ['lesions', name, 'site'],
      `lesion ${name} is ${fullName} (${code}) at the ${site}, expected ${oneOf(sites)}`,
      'correct the site or the code; if it is so, leave it',
    ),
  ];
}

function lineOfSite(name: string, { site, line, code }: Lesion): Finding[] {
  const usual = site && usualLine(site);
  if (!line || !usual || usual === line || !isWallGap(code)) return [];
  return [
    warn(
      'line-unusual',
      ['lesions', name, 'line'],
      `lesion ${name} at the ${site} is read on the ${line} line, expected the ${usual} line`,
      'correct the line; if its lengths run there, leave it',
    ),
  ];
}
