import type { Wanted } from '../../src/casefile/wanted.js';

/** Every key these records may have and none has, as dotted paths; names of the user's own and list entries as `*`. */
export function unused(wanted: Wanted, values: readonly unknown[], path = ''): string[] {
  const present = values.filter((value) => value !== undefined);
  if (present.length === 0) return [path];
  switch (wanted.kind) {
    case 'list':
      return unused(wanted.of, present.flat(), `${path}[]`);
    case 'named':
      return unused(
        wanted.of,
        present.flatMap((value) => Object.values(value as object)),
        `${path}.*`,
      );
    case 'group':
      return [...wanted.keys].flatMap(([key, of]) =>
        unused(
          of.wanted,
          present.map((value) => (value as Record<string, unknown>)[key]),
          `${path}.${key}`,
        ),
      );
    case 'either':
      return unused(wanted.forms.find(({ kind }) => kind === 'list') ?? wanted, present, path);
    default:
      return [];
  }
}
