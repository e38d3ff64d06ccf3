import { lesionKinds } from '../reference/lesions.js';
import { oneCode } from './first-met.js';
import { codeBefore } from './lesions-that-fit.js';
import type { Place } from './place-said.js';
import type { VisitReader } from './visit-reader.js';

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
export function placeInWords({ feet, claw, codes, mark, site, footItself }: Omit<Place, 'next'>): string {
  const one = codes && oneCode(codes);
  const said = one ? [one] : (codes ?? []);
  const kind = mark ? 'mark' : said.map((code) => lesionKinds[code].name).join(' or ');
  return [feet.join(' '), footItself ? 'foot' : '', claw ?? '', site ?? '', kind].filter(Boolean).join(' ');
}
