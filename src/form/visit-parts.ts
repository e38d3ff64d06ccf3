import {
  type Showing,
  fieldViews,
  isBegun,
  groupView,
  type Field,
  type GroupField,
  findingName,
  shortOf,
} from './field.js';
import type { FieldView, PartView, VisitView } from './form-view.js';
import type { VisitForm } from './visit-form.js';
import { foundKeys, visitQuestions } from '../keep/questions.js';
import { formParts, placesOf } from '../record/key.js';
import { visit } from '../record/visit.js';
import type { Animal } from '../record/animal.js';
import { placeInWords } from '../words/day-and-place.js';

/** What is asked first of a lesion or mark first met, whatever it is. */
const firstOfNew = foundKeys();
/** Asked at the desk too, and folded on the phone. */
const folded = new Set(['signs', 'gone']);
/** Behind the lengths, which are side by side. */
const tellsHow = new Set(['top-found', 'tool', 'distance']);

/** The keys under a heading of the form, such as `walk+`, in their order. */
function keysUnder(heading: string): string[] {
  const under = Object.entries(placesOf(visit)).flatMap(([key, { form = '' }]) =>
    form.replace(/ \d+$/, '') === heading ? [{ key, at: Number(form.slice(heading.length)) }] : [],
  );
  return under.toSorted((a, b) => a.at - b.at).map(({ key }) => key);
}

interface Placed {
  readonly view: FieldView;
  readonly usual: boolean;
  readonly begun: boolean;
}

/**
 * What was found, lesion by lesion: those still followed and her marks are open, with what is asked first at the desk
 * too and the rest folded; what is healed and room for what is first met are folded, but where she has no lesion yet.
 *
 * Nothing read before is there: a number seen first draws the reading to it.
 */
function found(form: VisitForm, showing: Showing): Placed[] {
  const { animal, words } = showing;
  const group = form.fields.get('found');
  if (group?.kind !== 'group') return [];
  const first = firstKeys(animal);
  const isFirst = Object.keys(animal.lesions).length === 0;
  return group.fields.flatMap((field): Placed[] => {
    if (field.kind !== 'group') return [];
    const { key: name, last } = field;
    const declared = form.declared.find(
      (one) => one.name === `lesions.${name}` || one.name === `marks.${name}`,
    );
    const usual = first.has(name) || (isFirst && name === form.newLesions[0]);
    const keys = (first.get(name) ?? firstOfNew)
      .filter((key) => !folded.has(key) && (key === 'state' || last?.[key] === undefined))
      .toSorted((a, b) => Number(tellsHow.has(a)) - Number(tellsHow.has(b)));
    const begun = isBegun(field, showing) || (declared !== undefined && isBegun(declared, showing));
    const view = groupView(partOf(field, keys), findingName(words, animal, name), showing);
    const rest = partOf(
      field,
      field.fields.map(({ key }) => key).filter((key) => !keys.includes(key)),
    );
    const moreOf = {
      more: rest.fields.flatMap((inner) => fieldViews(inner, showing)),
      moreLabel: words.say(last ? 'form.visit.fold-short' : 'form.visit.fold'),
      moreOpen: rest.fields.some((inner) => isBegun(inner, showing)),
    };
    const declares = declared?.kind === 'group' ? declared.fields : [];
    const fields = [...declares.flatMap((inner) => fieldViews(inner, showing)), ...view.fields];
    return [
      { view: { ...view, ...moreOf, ...lastOf(field, showing), fields, folded: !usual, open: begun }, usual, begun },
    ]; // prettier-ignore
  });
}

/** The tap that says again how it stood and was read last time. */
function lastOf({ name, last }: GroupField, { words, animal, values }: Showing): Partial<FieldView> {
  if (!last) return {};
  const said = Object.entries(last).map(([key, value]) => shortOf(words, animal, `${name}.${key}`, value));
  const label = words.say('form.visit.as-last', { said: words.commas(said) });
  return { last: { value: 'yes', label, chosen: values.get(`${name}.last`)?.includes('yes') === true } };
}

/** By lesion or mark still followed: the keys the desk asks, in its order. */
function firstKeys(animal: Animal): Map<string, string[]> {
  const keys = new Map<string, string[]>();
  for (const { path, name } of visitQuestions(animal))
    if (path[0] === 'found' && name !== undefined) keys.set(name, [...(keys.get(name) ?? []), path[2] ?? '']);
  return keys;
}

function partOf(field: GroupField, keys: readonly string[]): GroupField {
  const fields = keys.flatMap((key): readonly Field[] => field.fields.filter((inner) => inner.key === key));
  return { ...field, fields };
}

/** A block or wrap known to be on her: what became of it, and the rest folded. */
function knownView(entry: GroupField, showing: Showing): FieldView {
  const { words } = showing;
  const { foot, claw } = entry.known as { foot: 'LF'; claw?: 'inner' };
  const list = entry.name.split('.')[0];
  const view = groupView(entry, words.say(`form.on-her.${list}`, { place: placeInWords(words, foot, claw) }), showing); // prettier-ignore
  const isRest = ({ name }: FieldView): boolean => !/\.(?:foot|claw|event)$/.test(name);
  const more = view.fields.filter(isRest);
  return {
    ...view,
    fields: view.fields
      .filter((field) => !isRest(field))
      // What was tapped can be taken back: nothing need have become of it.
      .map((field) => ({ ...field, notSaid: words.say('form.visit.not-said') })),
    more,
    moreLabel: words.say('form.visit.fold-short'),
    onHer: true,
    moreOpen: entry.fields.some((one) => more.some(({ name }) => name === one.name) && isBegun(one, showing)),
    folded: false,
  };
}

function placed(key: string, form: VisitForm, showing: Showing): Placed[] {
  const field = form.fields.get(key);
  if (!field) return [];
  if (key === 'found') return found(form, showing);
  const begun = isBegun(field, showing);
  if (field.kind === 'entries') {
    // Unfolding the part that has room for a block unfolds that.
    const blank = key === 'blocks' ? field.entries.findIndex(({ known }) => !known) : -1;
    return fieldViews(field, showing).map((view, at) => {
      const entry = field.entries[at]!;
      return entry.known
        ? { view: knownView(entry, showing), usual: true, begun: false }
        : {
            view: { ...view, open: view.open || at === blank },
            usual: false,
            begun: isBegun(entry, showing),
          };
    });
  }
  const usual = !placesOf(visit)[key]!.form!.includes('+');
  const fields = key === 'feet' && field.kind === 'group' ? field.fields : [field];
  // Who was there is asked for where nobody is known.
  const isLacking = key === 'by' && !showing.values.get(key)?.[0];
  return fields
    .flatMap((one) => fieldViews(one, showing))
    .map((view) => ({ view, usual, begun: key === 'by' ? isLacking || showing.troubles.has(key) : begun }));
}

/**
 * The form of a visit in its parts: what is usual is open, what is rare is folded by what it is about, and stands
 * open where something of it is said.
 */
export function visitParts(form: VisitForm, showing: Showing): Pick<VisitView, 'parts' | 'folds'> {
  const { words } = showing;
  const who = form.identity
    .flatMap((field) => fieldViews(field, showing))
    .map((view) => ({ view, usual: true, begun: false }));
  const all = formParts.map((part) => ({
    part,
    own: [
      ...(part === 'visit' ? who : []),
      ...[...keysUnder(part), ...keysUnder(`${part}+`)].flatMap((key) => placed(key, form, showing)),
    ],
  }));
  const partsOf = (kind: 'part' | 'fold', wanted: boolean): PartView[] =>
    all.flatMap(({ part, own }) => {
      const shown = own.filter(({ usual }) => usual === wanted);
      const heading = shown.length === 0 ? '' : words.say(`form.${kind}.${part}`);
      const fields = shown.map(({ view }) => view);
      const open = shown.some(({ begun }) => begun) || showing.values.get('more')?.includes(part) === true;
      const hasRoom = fields.some(({ show }) => show === 'group' || show === 'picture');
      return shown.length === 0 ? [] : [{ part, heading, fields, open, hasRoom }];
    });
  return { parts: partsOf('part', true), folds: partsOf('fold', false) };
}
