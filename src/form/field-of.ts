import type { Wanted } from '../casefile/wanted.js';
import type { AnswerField, Field, GroupField } from './field.js';

/** What a form knows of one animal beyond the record model: which words fit, which names, how many entries. */
export interface Fitting {
  /** Of a closed list, the words that fit there; of a name, the names there are; of a number, those of its scale. */
  readonly choices: (path: readonly string[], wanted: Wanted) => readonly string[];
  readonly spans: (path: readonly string[]) => readonly string[];
  /** Whether a key has its place there. */
  readonly fits: (path: readonly string[]) => boolean;
  /** The names under which groups stand. */
  readonly names: (path: readonly string[]) => readonly string[];
  /** How many entries a list has room for. */
  readonly room: (path: readonly string[]) => number;
}

/**
 * The field of a place in the record model, with all that stands under it.
 *
 * Made from the very schema that checks the files: a key added there has its field here. A schema of a kind no form
 * shows yet throws, and so fails the tests.
 *
 * Checked: tests/form/visit-form.test.ts
 */
export function fieldOf(wanted: Wanted, path: readonly string[], required: boolean, fitting: Fitting): Field {
  const name = path.join('.');
  const key = path.at(-1) ?? '';
  switch (wanted.kind) {
    case 'group':
      return groupOf(wanted, path, required, fitting);
    case 'named': {
      const fields = fitting.names(path).map((one) => fieldOf(wanted.of, [...path, one], false, fitting));
      return { kind: 'group', name, key, fields, required };
    }
    case 'list': {
      const { of } = wanted;
      if (of.kind !== 'group') return answerOf(wanted, path, required, fitting);
      const entries = Array.from({ length: fitting.room(path) }, (_, at) =>
        groupOf(of, [...path, String(at)], false, fitting),
      );
      return { kind: 'entries', name, key, entries, required };
    }
    case 'either':
    case 'version':
    case 'slug':
      throw new TypeError(`no field of a form for ${name}, of the kind ${wanted.kind}`);
    default:
      return answerOf(wanted, path, required, fitting);
  }
}

function groupOf(
  { keys }: Extract<Wanted, { kind: 'group' }>,
  path: readonly string[],
  required: boolean,
  fitting: Fitting,
): GroupField {
  const fields = [...keys]
    .filter(([key]) => fitting.fits([...path, key]))
    .map(([key, inner]) => fieldOf(inner.wanted, [...path, key], inner.required, fitting));
  return { kind: 'group', name: path.join('.'), key: path.at(-1) ?? '', fields, required };
}

function answerOf(wanted: Wanted, path: readonly string[], required: boolean, fitting: Fitting): AnswerField {
  return {
    kind: 'answer',
    name: path.join('.'),
    key: path.at(-1) ?? '',
    wanted,
    choices: fitting.choices(path, wanted),
    spans: fitting.spans(path),
    required,
  };
}
