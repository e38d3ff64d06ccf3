import { type Wanted, wantedBy } from '../../src/casefile/wanted.js';
import { visit } from '../../src/record/visit.js';

/** A visit as the flags of `growdown visit`, as somebody careful would type them: every text in quotes. */
export function asFlags(draft: Readonly<Record<string, unknown>>): string[] {
  const wanted = wantedBy(visit);
  if (wanted.kind !== 'group') throw new TypeError('a visit is a group of keys');
  return Object.entries(draft).flatMap(([key, value]) =>
    answersOf(wanted.keys.get(key)?.wanted, value).map((answer) => `--${key}=${answer}`),
  );
}

/** One answer for most keys; one an entry of a list of groups; one a name of what is under names. */
function answersOf(wanted: Wanted | undefined, value: unknown): string[] {
  if (!wanted) throw new TypeError('no such key of a visit');
  if (wanted.kind === 'list' && wanted.of.kind === 'group' && Array.isArray(value)) {
    const { of } = wanted;
    return value.map((entry) => typed(of, entry));
  }
  const inner = (name: string): Wanted | undefined => {
    if (wanted.kind === 'named') return wanted.of;
    const of = wanted.kind === 'group' ? wanted.keys.get(name)?.wanted : undefined;
    return of?.kind === 'group' ? of : undefined;
  };
  if (typeof value === 'object' && value !== null && Object.keys(value).every((name) => inner(name)))
    return Object.entries(value).map(([name, entry]) => `${name}: ${typed(inner(name)!, entry)}`);
  return [Array.isArray(value) ? value.join(', ') : typed(wanted, value)];
}

function typed(wanted: Wanted, value: unknown): string {
  if (wanted.kind === 'group')
    return Object.entries(value as object)
      .flatMap(([key, inner]) => {
        const of = wanted.keys.get(key)!.wanted;
        const isGroups = of.kind === 'list' && of.of.kind === 'group' && Array.isArray(inner);
        if (!isGroups) return [`${key} ${typed(of, inner)}`];
        return inner.map((entry) => `${key} ${typed(of.of, entry).replaceAll(', ', ' + ')}`);
      })
      .join(', ');
  if (Array.isArray(value)) return value.join(' + ');
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  if (wanted.kind === 'text' || wanted.kind === 'free-text')
    return `"${String(value).replaceAll(/["\\]/g, String.raw`\$&`)}"`;
  return String(value);
}
