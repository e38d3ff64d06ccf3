import { type Showing, fieldViews, isBegun, groupView } from './field-view.js';
import { type Field, type GroupField, findingName, placeOfField } from './field.js';
import type { FieldView, PartView } from './form-view.js';
import type { VisitForm } from './visit-form.js';
import { foundKeys, visitQuestions } from '../keep/questions.js';
import { type FormPart, formParts, placesOf } from '../record/key.js';
import { visit } from '../record/visit.js';
import type { Animal } from '../record/animal.js';

/** What is asked first of a lesion or mark first met, whatever it is. */
const firstOfNew = [...foundKeys().filter((key) => key !== 'distance'), 'distance'];

/** The keys under a heading of the form, such as `walk+`, in their order. */
function keysUnder(heading: string): string[] {
  const under = Object.entries(placesOf(visit)).flatMap(([key, { form = '' }]) =>
    form.replace(/ \d+$/, '') === heading ? [{ key, at: Number(form.slice(heading.length)) }] : [],
  );
  return under.toSorted((a, b) => a.at - b.at).map(({ key }) => key);
}

/**
 * What was found, lesion by lesion: those still followed stand open, with what is asked first at the desk too and the
 * rest folded; then her marks, then what is healed, then room for what is first met.
 *
 * Nothing read before stands there: a number seen first draws the reading to it.
 */
function foundViews(form: VisitForm, showing: Showing): FieldView[] {
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
    const keys = first.get(name) ?? firstOfNew;
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
      },
    ];
  });
  return [...views.filter(({ folded }) => !folded), ...views.filter(({ folded }) => folded)];
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

/** The parts of a visit's form in their order, wherever they are shown: a part without a field is left out. */
export function visitParts(form: VisitForm, showing: Showing): PartView[] {
  return formParts
    .map((part) => partView(part, form, showing))
    .filter(({ fields, folded }) => fields.length + folded.length > 0);
}

function partView(name: FormPart, form: VisitForm, showing: Showing): PartView {
  const { words } = showing;
  const folded = keysUnder(`${name}+`);
  const views = (key: string): FieldView[] => {
    const field = form.fields.get(key);
    if (!field) return [];
    if (key === 'found') return foundViews(form, showing);
    if (key === 'feet' && field.kind === 'group')
      return field.fields.flatMap((foot) => fieldViews(foot, showing));
    return fieldViews(field, showing).map((view) => ({
      ...view,
      folded: view.show === 'group' ? placeOfField(key).room !== undefined : view.folded,
    }));
  };
  const begun = folded.some((key) => {
    const field = form.fields.get(key);
    return field !== undefined && isBegun(field, showing);
  });
  return {
    heading: words.say(`form.part.${name}`),
    fields: keysUnder(name).flatMap(views),
    folded: folded.flatMap(views),
    foldLabel: folded.length === 0 ? '' : words.say(`form.fold.${name}`),
    foldOpen: begun,
  };
}
