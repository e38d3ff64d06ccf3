import { type Showing, fieldViews, isBegun } from './field-view.js';
import { formLayout } from './form-layout.js';
import type { FieldView, PartView } from './form-view.js';
import { foundViews } from './found-view.js';
import type { VisitForm } from './visit-form.js';

/** The parts of a visit's form in their order, wherever they are shown: a part without a field is left out. */
export function visitParts(
  form: VisitForm,
  showing: Showing,
  expectedOf: (lesion: string) => string | undefined,
): PartView[] {
  return formLayout.parts
    .map((part) => partView(part, form, showing, expectedOf))
    .filter(({ fields, folded }) => fields.length + folded.length > 0);
}

function partView(
  { name, keys, folded }: (typeof formLayout.parts)[number],
  form: VisitForm,
  showing: Showing,
  expectedOf: (lesion: string) => string | undefined,
): PartView {
  const { words } = showing;
  const views = (key: string): FieldView[] => {
    const field = form.fields.get(key);
    if (!field) return [];
    if (key === 'found') return foundViews(form, showing, expectedOf);
    if (key === 'feet' && field.kind === 'group')
      return field.fields.flatMap((foot) => fieldViews(foot, showing));
    return fieldViews(field, showing).map((view) => ({
      ...view,
      folded: view.show === 'group' ? formLayout.room[key] !== undefined : view.folded,
    }));
  };
  const begun = folded.some((key) => {
    const field = form.fields.get(key);
    return field !== undefined && isBegun(field, showing);
  });
  return {
    heading: words.say(`form.part.${name}`),
    fields: keys.flatMap(views),
    folded: folded.flatMap(views),
    foldLabel: folded.length === 0 ? '' : words.say(`form.fold.${name}`),
    foldOpen: begun,
  };
}
