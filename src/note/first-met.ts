import { freeNames, type Lesion } from '../record/lesion.js';
import type { Claw, Foot, LesionCode, Site } from '../record/words.js';
import { familyOf, lesionKinds, usualLine } from '../reference/lesions.js';
import { lesionsThatFit, codeBefore } from './lesions-that-fit.js';
import type { Choice } from './note-reading.js';
import type { PlaceSaid } from './place-said.js';
import type { VisitReader } from './visit-reader.js';

type Said = Omit<PlaceSaid, 'next'>;

/** A lesion that none on file fits: what its declaration would be, or what has to be said before it is certain. */
type FirstMet =
  | { readonly outcome: 'certain'; readonly name: string; readonly lesion: Lesion }
  | { readonly outcome: 'to be asked'; readonly choices: readonly Choice[]; readonly mend: string };

/**
 * Whether a lesion first met in a note may be declared.
 *
 * Certain only where foot, claw and kind are said, of a wall gap also a site that tells the line of its lengths, and
 * no lesion of such a kind is declared on that place: what is on file may have got another name. With `new` before it
 * the writer has settled that himself; where it stood there before and had healed, it is `again-of` that one.
 *
 * Checked: tests/note/first-met.test.ts
 */
export function firstMet(r: VisitReader, place: Said, saidNew: boolean): FirstMet {
  const code = oneCode(place.codes ?? []);
  const [foot] = place.feet;
  const claw = place.claw === 'other' ? undefined : place.claw;
  if (foot === undefined || code === undefined || place.footItself)
    return asked(place.codes ?? [], foot, (one) => [oneCode([one]) ?? one, claw, place.site]);
  if (claw === undefined && needsClaw(code, saidNew))
    return asked(['inner', 'outer'] as const, foot, (one) => [code, one, place.site]);
  const line = place.site && usualLine(place.site);
  if (familyOf(code) === 'wall' && line === undefined)
    return asked(sitesWithLine(code), foot, (site) => [code, claw, site]);
  if (!saidNew && isNearOne(r, code, foot, claw))
    return asked([code], foot, (one) => [one, claw, place.site]);
  const before = saidNew ? lesionsThatFit(r.animal, { ...place, codes: [code] }, r.date) : [];
  const [again] = before;
  const lesion = {
    code,
    foot,
    ...(claw ? { claw } : {}),
    ...(place.site ? { site: place.site } : {}),
    ...(familyOf(code) === 'wall' && line ? { line } : {}),
    ...(before.length === 1 && again !== undefined ? { 'again-of': again } : {}),
  };
  return { outcome: 'certain', name: freeNames('lesions', namesOf(r.animal))[0]!, lesion };
}

/** `WL`, also where the words cover the narrower names of it (`WLA`, `WLF`); undefined where they leave several kinds. */
function oneCode(codes: readonly LesionCode[]): LesionCode | undefined {
  const [code] = codes;
  return code !== undefined && codes.every((other) => other.startsWith(code)) ? code : undefined;
}

/** Skin between the claws belongs to both; the shape of a foot to neither, and that only the writer can know. */
function needsClaw(code: LesionCode, saidNew: boolean): boolean {
  const family = familyOf(code);
  if (family === 'dermatitis') return false;
  if (family !== 'present') return true;
  return !saidNew && lesionKinds[code].sites?.has('between claws') !== true;
}

function isNearOne(r: VisitReader, code: LesionCode, foot: Foot, claw: Claw | undefined): boolean {
  return Object.values(r.animal.lesions).some(
    (one) =>
      one.foot === foot &&
      (claw === undefined || one.claw === undefined || one.claw === claw) &&
      familyOf(one.code) === familyOf(code),
  );
}

function sitesWithLine(code: LesionCode): Site[] {
  return [...(lesionKinds[code].sites ?? [])].filter((site) => usualLine(site) !== undefined);
}

function asked<T>(
  missing: readonly T[],
  foot: Foot | undefined,
  as: (one: T) => readonly [code: LesionCode, claw: Claw | undefined, site: Site | undefined],
): FirstMet {
  const told = missing.map((one) => {
    const [code, claw, site] = as(one);
    return ['new', foot ?? 'FOOT', claw, code, site].filter((part) => part !== undefined).join(' ');
  });
  const [such = 'new LH outer SU'] = told;
  return {
    outcome: 'to be asked',
    choices: foot === undefined ? [] : told.map((text) => ({ label: `it is ${text}`, text: ` ${text} ` })),
    mend: `if it is new, say so with its foot, claw and kind, of a wall gap its site too, as in \`${such}\``,
  };
}

function namesOf({ lesions, marks = {} }: VisitReader['animal']): string[] {
  return [...Object.keys(lesions), ...Object.keys(marks)];
}

/** Such as `a, white line disease, LH outer`. */
export function nameInFull(r: VisitReader, name: string): string {
  const declared = r.declared(name);
  const code = codeBefore(r.animal, name, r.date);
  const kind = code === undefined ? 'mark' : lesionKinds[code].name;
  return [name, kind, [declared?.foot, declared?.claw].filter(Boolean).join(' ')].filter(Boolean).join(', ');
}

/** How a note names it so that no word of it can mean anything else. */
export function calledIn(r: VisitReader, name: string): string {
  return `${codeBefore(r.animal, name, r.date) === undefined ? 'mark' : 'lesion'} ${name}`;
}

/** A place as it was said, as far as it was: of several kinds all that are meant. */
export function placeAsSaid({ feet, claw, codes, mark, site, footItself }: Omit<PlaceSaid, 'next'>): string {
  const one = codes && oneCode(codes);
  const said = one ? [one] : (codes ?? []);
  const kind = mark ? 'mark' : said.map((code) => lesionKinds[code].name).join(' or ');
  return [feet.join(' '), footItself ? 'foot' : '', claw ?? '', site ?? '', kind].filter(Boolean).join(' ');
}
