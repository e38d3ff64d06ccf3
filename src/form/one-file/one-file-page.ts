import { escaped } from '../../record/signs.js';
import { type Words, readStrings, told, untold } from '../../reference/words.js';
import { contentPolicy, hashOf } from '../../book/book-style.js';
import { formStyle } from '../form-style.js';
import { layoutCss, renderTemplate } from '../../book/layout-css.js';
import { z } from 'zod';
import type { Animal } from '../../record/animal.js';
import type { Business } from '../../record/business.js';
import type { CalendarDay } from '../../record/calendar-day.js';
import { gaitScaleOn } from '../../record/gait-scale-on.js';
import { given } from '../../record/given.js';
import { kindOfVisit } from '../../record/lifting.js';
import type { FarmRecord } from '../../record/practice.js';
import type { Visit } from '../../record/visit.js';
import type { LinkView } from '../form-view.js';
import type { AnimalData, FarmData } from './farm-data.js';
import { readShared } from '../../reference/read-shared.js';
import type { CaseWork } from '../../schedule/case-work.js';
import { dayInWords } from '../../words/day-and-place.js';
import { dueNow, identityOf, lastVisit, linesBefore, knownOnHer } from '../known-of-animal.js';
import { animalsPage } from '../list-pages.js';

/**
 * The form in one file: the data of a farm as inert JSON, one style and one script, each named by its hash. Nothing else
 * may run, nothing is asked of any network, nothing is sent.
 *
 * Shape:   words, data, the script made by `src/setup/bundle-form` → HTML
 * Error:   a script that would end its own element is a slip of ours and throws
 * Checked: tests/form/one-file-page.test.ts, tests/browser/one-file.test.ts
 */
export function oneFilePage(words: Words, data: FarmData, script: string): string {
  if (/<\/script|<!--/i.test(script))
    throw new Error('the script of the form holds a text that would end it');
  const style = `${formStyle()}\n${layoutCss('one-file.css')}`;
  const policy = contentPolicy(style, `script-src '${hashOf(script)}'; form-action 'none'`);
  return renderTemplate('yard/one-file.njk', {
    language: words.language,
    title: words.say('form.file.title', { farm: data.farm }),
    farm: told(data.farm),
    needsScripts: words.say('form.file.needs-scripts'),
    policy,
    style,
    data: asInertJson(data),
    script,
  });
}

/** JSON that can end no element and open no comment, whatever is in a record. @example asInertJson('</script>') // → '"\\u003c/script>"' */
export function asInertJson(data: unknown): string {
  return escaped(untold(JSON.stringify(data))).replaceAll('<', String.raw`\u003c`);
}

/** Files of `shared/` that fields and words of the form are made from, in the page as here. */
const sharedFiles = ['form.json', 'lesions.json', 'scales.json', 'growth.json', 'other-words.json'];
/** What it may say of what is typed in it, out of `shared/words/messages.en-GB.json`. */
const messages =
  /^(?:answer|expected|place|row|value)\.|^problem\.(?:value|entry)\/|^problem\.record\/(?:centimetres|other-year)\./;
/** The words the page draws from, which are not those of the served form alone: of a key, what the form calls it. */
const isDrawn =
  /^(?:form(?!\.before|\.farms|\.kept|\.title)|vocabulary|calendar|row|number)\.|^key\..*\.form$/;

/** What the form in one file is made of. */
interface OneFileFor {
  readonly words: Words;
  readonly record: FarmRecord;
  readonly business: Business;
  readonly work: readonly CaseWork[];
  readonly today: CalendarDay;
}

/** A farm as the form in one file carries it: in the order and with the lines of the served form's list. */
export function composeFarmData({ words, record, business, work, today }: OneFileFor): FarmData {
  const [, due, others] = animalsPage(words, { record, work, inbox: { open: [] } }, today).groups;
  const of = (links: readonly LinkView[] = [], isDue: boolean): AnimalData[] =>
    links.flatMap(({ to, lines }) => {
      const own = work.find((one) => one.record.slug === to);
      return own ? [{ isDue, lines, ...ofAnimal(words, own, today) }] : [];
    });
  return {
    slug: record.slug,
    farm: record.farm.farm,
    made: today,
    madeInWords: dayInWords(words, today),
    trimmer: business.trimmer ?? '',
    gaitScale: gaitScaleOn(record.farm, today) ?? '',
    language: words.language,
    strings: Object.fromEntries(
      words.keys.filter((key) => isDrawn.test(key)).map((key) => [key, words.template(key)]),
    ),
    shared: {
      ...Object.fromEntries(sharedFiles.map((name) => [name, withoutSources(readShared(name, z.unknown()))])),
      'words/messages.en-GB.json': carried('messages.en-GB', messages),
      'words/en-GB.json': carried('en-GB', /^calendar\./),
    },
    animals: [...of(due?.links, true), ...of(others?.links, false)],
  };
}

/** Numbers without where they are from, which the page never says. */
function withoutSources(table: unknown): unknown {
  return JSON.parse(JSON.stringify(table, (key, value: unknown) => (key === 'address' ? undefined : value)));
}

/** The strings of a file of words whose keys fit, under their areas. */
function carried(file: string, keys: RegExp): Record<string, Record<string, string>> {
  const branches: Record<string, Record<string, string>> = {};
  for (const [key, string] of readStrings(file).filter(([each]) => keys.test(each))) {
    const [area = ''] = key.split('.');
    (branches[area] ??= {})[key.slice(area.length + 1)] = string;
  }
  return branches;
}

function ofAnimal(words: Words, work: CaseWork, today: CalendarDay): Omit<AnimalData, 'isDue' | 'lines'> {
  const { slug, animal } = work.record;
  return {
    slug,
    number: animal.animal,
    identity: identityOf(words, work),
    due: dueNow(words, work, today),
    last: lastVisit(words, work),
    before: linesBefore(words, work, today),
    kind: kindOfVisit(animal, today),
    record: whatFits(animal),
    onHer: knownOnHer(animal, today),
  };
}

/**
 * Of an animal's record what decides which fields and words fit and what looks like a slip: her lesions, her marks, how
 * each was found and measured.
 */
function whatFits({ casefile, animal, lesions, marks, visits, ...rest }: Animal): Animal {
  const { calvings, 'calved-before': calvedBefore } = rest;
  const found = ({ found: all = {} }: Visit) =>
    Object.fromEntries(
      Object.entries(all).map(([name, { signs: _signs, note: _note, ...finding }]) => [name, finding]),
    );
  return {
    casefile,
    animal,
    ...given({ calvings, 'calved-before': calvedBefore }),
    lesions,
    ...given({ marks }),
    visits: visits.map((visit) => ({ date: visit.date, by: '', kind: visit.kind, found: found(visit) })),
  };
}
