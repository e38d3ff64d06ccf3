import { isDeviceName } from '../record/device-name.js';

const slugForm = /^[a-z0-9][a-z0-9-]{0,63}$/;

/** What is wrong with a name as a slug, the way it is to be put right; undefined for a good one. */
export function slugTrouble(name: string): { id: string; expected: string; mend: string } | undefined {
  if (isDeviceName(name)) {
    return {
      id: 'folder/device-name',
      expected: 'a name that Windows does not keep for itself',
      mend: `add something to the name, such as \`${name.toLowerCase()}-1\``,
    };
  }
  if (slugForm.test(name)) return undefined;
  const lower = name.toLowerCase();
  if (slugForm.test(lower)) {
    return { id: 'folder/letter-case', expected: 'small letters', mend: `rename it to \`${lower}\`` };
  }
  const joined = slugFrom(name);
  return {
    id: 'folder/name-form',
    expected: 'small letters, digits and hyphens only, at most 64',
    mend: joined ? `rename it, such as to \`${joined}\`` : 'rename it',
  };
}

/** A name that would do as a slug in the place of one that does not; undefined where none is near. */
export function slugInstead(name: string): string | undefined {
  const near = slugFrom(name);
  if (near === '') return undefined;
  return slugTrouble(near) ? `${near}-1` : near;
}

/** A name as near as a slug can be to it: `2086/b` becomes `2086-b`. Empty where the name holds no letter or digit a slug may have. */
export function slugFrom(name: string): string {
  return name
    .toLowerCase()
    .replaceAll(/[^a-z0-9]+/g, '-')
    .slice(0, 64)
    .replaceAll(/^-+|-+$/g, '');
}
