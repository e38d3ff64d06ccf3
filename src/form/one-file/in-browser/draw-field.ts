import type { FieldView, OptionView } from '../../form-view.js';
import { type Attributes, element, paragraphElement } from './element.js';

/** A field as `layouts/parts/yard/field.njk` lays it out: tests/browser/one-file.test.ts holds the two against each other. */
export function drawField(field: FieldView): HTMLElement {
  switch (field.show) {
    case 'group':
    case 'picture':
      return drawGroup(field);
    case 'checks':
      return field.folded ? foldedChecks(field) : choices(field, 'checkbox');
    case 'radios':
      return choices(field, 'radio');
    case 'select':
      return labelled(field, select(field));
    case 'lines':
      return labelled(field, element('textarea', { ...named(field), rows: '3' }, field.value));
    case 'typed':
      return field.options.length > 0 ? dayOrSpan(field) : labelled(field, measured(field));
  }
}

function drawGroup(field: FieldView): HTMLElement {
  const attributes = { class: 'one', id: `f-${field.name}` };
  if (field.folded)
    return element(
      'details',
      { ...attributes, open: field.open },
      element('summary', {}, field.label),
      ...groupBody(field),
    );
  return element('fieldset', attributes, element('legend', {}, field.label), ...groupBody(field));
}

function groupBody({ name, fields, expected, more, moreLabel, moreOpen }: FieldView): HTMLElement[] {
  return [
    ...fields.map(drawField),
    ...(expected === ''
      ? []
      : [
          element(
            'details',
            { class: 'expected', 'data-of': name },
            element('summary', {}, expected.summary),
            paragraphElement(expected.says, 'quiet'),
            paragraphElement(expected.text),
            element(
              'div',
              { class: 'tiles' },
              tile('checkbox', 'saw-expected', {
                value: 'yes',
                label: expected.saw,
                chosen: expected.sawChosen,
              }),
            ),
          ),
        ]),
    ...(more.length === 0
      ? []
      : [
          element(
            'details',
            { class: 'more', open: moreOpen },
            element('summary', {}, moreLabel),
            ...more.map(drawField),
          ),
        ]),
  ];
}

function choices(field: FieldView, type: 'radio' | 'checkbox', id = `f-${field.name}`): HTMLElement {
  return element(
    'fieldset',
    { class: 'field', ...(id === '' ? {} : { id }), ...described(field) },
    element('legend', id === '' ? { class: 'said' } : {}, field.label),
    ...trouble(field),
    tiles(field, type),
  );
}

/** A long list of words, under its own name. */
function foldedChecks(field: FieldView): HTMLElement {
  return element(
    'details',
    { id: `f-${field.name}`, open: field.open },
    element('summary', {}, field.label),
    choices(field, 'checkbox', ''),
  );
}

/** How long from the visit, or a day. */
function dayOrSpan(field: FieldView): HTMLElement {
  return element(
    'fieldset',
    { class: 'field' },
    element('legend', {}, field.label),
    ...trouble(field),
    tiles(field, 'radio'),
    typed(field, { 'aria-label': field.label }),
  );
}

function tiles({ name, options, notSaid, value }: FieldView, type: 'radio' | 'checkbox'): HTMLElement {
  const none = value === '' && options.every(({ chosen }) => !chosen);
  return element(
    'div',
    { class: 'tiles' },
    ...(notSaid === '' ? [] : [tile(type, name, { value: '', label: notSaid, chosen: none })]),
    ...options.map((option) => tile(type, name, option)),
  );
}

function tile(type: 'radio' | 'checkbox', name: string, { value, label, chosen }: OptionView): HTMLElement {
  return element(
    'label',
    {},
    element('input', { type, name, value, checked: chosen }),
    element('span', {}, label),
  );
}

function labelled(field: FieldView, control: HTMLElement): HTMLElement {
  return element(
    'div',
    { class: 'field' },
    element('label', { for: `f-${field.name}` }, field.label),
    ...trouble(field),
    control,
  );
}

function measured(field: FieldView): HTMLElement {
  const input = typed(field, {});
  return field.unit === ''
    ? input
    : element('div', { class: 'measured' }, input, element('span', {}, field.unit));
}

function typed(field: FieldView, more: Attributes): HTMLElement {
  return element('input', {
    ...named(field),
    type: field.type,
    value: field.value,
    autocomplete: 'off',
    ...(field.keys === '' ? {} : { inputmode: field.keys }),
    ...more,
  });
}

function select(field: FieldView): HTMLElement {
  return element(
    'select',
    named(field),
    element('option', { value: '' }, field.notSaid),
    ...field.options.map(({ value, label, chosen }) => element('option', { value, selected: chosen }, label)),
  );
}

function named(field: FieldView): Attributes {
  return { id: `f-${field.name}`, name: field.name, ...described(field) };
}

function described({ name, trouble: wrong }: FieldView): Attributes {
  return wrong === '' ? {} : { 'aria-invalid': 'true', 'aria-describedby': `t-${name}` };
}

function trouble({ name, trouble: wrong }: FieldView): HTMLElement[] {
  return wrong === '' ? [] : [element('p', { class: 'trouble', id: `t-${name}` }, wrong)];
}
