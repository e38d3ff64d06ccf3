import type { Field } from '../../form/field.js';
import type { VisitForm } from '../../form/visit-form.js';

/** Those of the messages that name a field of the form, each with its field. */
export function troublesAtFields(against: readonly string[], form: VisitForm): [string, string][] {
  const names = namesOf([...form.fields.values(), ...form.declared]).toSorted((a, b) => b.length - a.length);
  return against.flatMap((message): [string, string][] => {
    const at = names.find(
      (name) =>
        name.includes('.') &&
        new RegExp(`(^|[^\\w.])${name.replaceAll('.', '\\.')}($|[^\\w.])`).test(message),
    );
    if (at !== undefined) return [[at, message]];
    const missing = names.find((name) => isMissing(name, message));
    // What is missing stands where it belongs, without the place that the field itself tells.
    return missing === undefined ? [] : [[missing, message.replace(/^.*?, (?=expected)/, 'nothing said, ')]];
  });
}

/** A message on a group, such as `found.a`, that expects this key of it. */
function isMissing(name: string, message: string): boolean {
  const dot = name.lastIndexOf('.');
  if (dot < 0) return false;
  const group = name.slice(0, dot).replaceAll('.', '\\.');
  return new RegExp(`^${group} .*, expected “${name.slice(dot + 1)}”`).test(message);
}

function namesOf(fields: readonly Field[]): string[] {
  return fields.flatMap((field) => {
    if (field.kind === 'answer') return [field.name];
    return namesOf(field.kind === 'group' ? field.fields : field.entries);
  });
}
