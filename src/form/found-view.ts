import { visitQuestions } from '../keep/questions.js';
import type { Animal } from '../record/animal.js';
import type { Field, GroupField } from './field.js';
import { type Showing, fieldViews, groupView, isBegun } from './field-view.js';
import { findingName } from './field-words.js';
import type { ExpectedView, FieldView } from './form-view.js';
import type { VisitForm } from './visit-form.js';

/** What is asked first of a lesion first met, whatever it is. */
const firstOfNew = ['state', 'stage', 'top', 'top-found', 'wall', 'length', 'width', 'tool', 'signs'];

/**
 * What was found, lesion by lesion: those still followed stand open, with what is asked first at the desk too and the
 * rest folded; then her marks, then what is healed, then room for what is first met.
 *
 * The expected reading stands folded below what is measured.
 */
export function foundViews(
  form: VisitForm,
  showing: Showing,
  expectedOf: (name: string) => string | undefined,
): FieldView[] {
  const { animal, words } = showing;
  const group = form.fields.get('found');
  if (group?.kind !== 'group') return [];
  const first = firstKeys(animal);
  const views = group.fields.flatMap((field): FieldView[] => {
    if (field.kind !== 'group') return [];
    const name = field.key;
    const declared = form.declared.find(
      (one) => one.name === `lesions.${name}` || one.name === `marks.${name}`,
    );
    const keys = first.get(name) ?? [...firstOfNew, 'distance'];
    const open =
      first.has(name) || isBegun(field, showing) || (declared !== undefined && isBegun(declared, showing));
    const view = groupView(partOf(field, keys), findingName(words, animal, name), showing);
    const rest = partOf(
      field,
      field.fields.map(({ key }) => key).filter((key) => !keys.includes(key)),
    );
    return [
      {
        ...view,
        fields: [
          ...(declared?.kind === 'group'
            ? declared.fields.flatMap((inner) => fieldViews(inner, showing))
            : []),
          ...view.fields,
        ],
        more: rest.fields.flatMap((inner) => fieldViews(inner, showing)),
        moreLabel: words.say('form.visit.fold'),
        moreOpen: rest.fields.some((inner) => isBegun(inner, showing)),
        folded: !first.has(name),
        open,
        expected:
          declared || !first.has(name) || animal.marks?.[name] ? '' : expectedView(showing, expectedOf(name)),
      },
    ];
  });
  return [...views.filter(({ folded }) => !folded), ...views.filter(({ folded }) => folded)];
}

function expectedView({ words, values }: Showing, text: string | undefined): ExpectedView | '' {
  if (text === undefined) return '';
  return {
    summary: words.say('form.expected.summary'),
    says: words.say('form.expected.says'),
    text,
    saw: words.say('form.expected.saw'),
    sawChosen: (values.get('saw-expected') ?? []).includes('yes'),
  };
}

/** By lesion or mark still followed: the keys the desk asks, in its order. */
function firstKeys(animal: Animal): Map<string, string[]> {
  const keys = new Map<string, string[]>();
  for (const { path, name } of visitQuestions(animal))
    if (path[0] === 'found' && name !== undefined) keys.set(name, [...(keys.get(name) ?? []), path[2] ?? '']);
  return keys;
}

/** The fields of these keys, in the order of the keys. */
function partOf(field: GroupField, keys: readonly string[]): GroupField {
  const fields = keys.flatMap((key): readonly Field[] => field.fields.filter((inner) => inner.key === key));
  return { ...field, fields };
}
