import { addDays } from '../record/calendar-day.js';
import type { FarmRecord } from '../record/practice.js';
import type { CaseWork } from '../schedule/case-work.js';
import type { DueItem } from '../schedule/due/due-item.js';
import { openDue } from '../schedule/next-lift.js';
import { caseChip, nameOf } from '../words/compose-standing.js';
import { calvingInWords } from '../words/compose-withheld.js';
import { dueInWords, whenDue, stopInWords } from '../words/compose-due.js';
import { dayInWords } from '../words/day-and-place.js';
import { type Words, told } from '../reference/words.js';
import type { Inbox } from '../keep/inbox/inbox-entry.js';
import { formLayout } from './field.js';
import { linkTo, type ListPage } from './form-view.js';

/** One farm with her cases worked out. */
export interface ListedFarm {
  readonly record: FarmRecord;
  readonly work: readonly CaseWork[];
  /** Its inbox, where forms are served from one. */
  readonly inbox: Pick<Inbox, 'open'>;
}

/** All farms, each with how many animals are due. */
export function farmsPage(
  words: Words,
  farms: readonly { readonly slug: string; readonly name: string; readonly animals: number }[],
  refused: readonly string[],
): ListPage {
  return {
    page: 'list',
    language: words.language,
    title: words.say('form.title.farms'),
    heading: words.say('form.farms.heading'),
    back: '',
    notes: refused.length === 0 ? [] : [words.say('form.farms.refused', { farms: refused.join(', ') })],
    groups: [
      {
        heading: '',
        empty: farms.length === 0 ? words.say('form.farms.none') : '',
        links: farms.map(({ slug, name, animals: count }) =>
          linkTo(`${slug}/`, told(name), [words.say('form.farms.animals', { count })]),
        ),
      },
    ],
  };
}

/** A farm's animals: those due first, soonest first; then all others. */
export function animalsPage(
  words: Words,
  { record, work, inbox: { open } }: ListedFarm,
  today: string,
): ListPage {
  const waiting = new Set(open.map(({ animal }) => animal));
  const rows = work.map((one) => ({ one, item: firstDue(one, today) }));
  const due = rows
    .filter(({ item }) => item !== undefined)
    .toSorted((a, b) => ((a.item?.by ?? '') < (b.item?.by ?? '') ? -1 : 1));
  const others = rows.filter(({ item }) => item === undefined);
  const stop = stopInWords(words, work);
  const link = ({ one, item }: (typeof rows)[number]) =>
    animalLink(words, one, item, waiting.has(one.record.slug), today);
  return {
    page: 'list',
    language: words.language,
    title: words.say('form.title.animals', { farm: told(record.farm.farm) }),
    heading: told(record.farm.farm),
    back: words.say('form.visit.back-farms'),
    notes: [
      ...(stop ? [`${stop.title}. ${stop.text}`] : []),
      ...(open.length === 0 ? [] : [words.say('form.animals.waiting', { count: open.length })]),
    ],
    groups: [
      {
        heading: '',
        empty: '',
        kind: 'small',
        links: [
          linkTo('+', '', [words.say('form.animals.open')]),
          ...open.flatMap(({ id, opens }) =>
            opens ? linkTo(`+?sent=${id}`, opens.animal, [], words.say('form.animals.sent')) : [],
          ),
        ],
      },
      {
        heading: words.say('form.animals.due'),
        links: due.map(link),
        empty: due.length === 0 ? words.say('form.animals.none-due') : '',
      },
      ...(others.length === 0
        ? []
        : [{ heading: words.say('form.animals.others'), links: others.map(link), empty: '' }]),
    ],
  };
}

function animalLink(words: Words, work: CaseWork, item: DueItem | undefined, isSent: boolean, today: string) {
  const { slug, animal } = work.record;
  const { leading } = work.standing;
  const chip = caseChip(words, work.standing);
  const due = item && `${dueInWords(words, animal, item).what}, ${whenDue(words, item, today, dayInWords(words, item.by))}`; // prettier-ignore
  const lines = [
    due,
    leading ? `${chip}: ${nameOf(words, animal, leading.lesion)}` : chip,
    work.calvingNear && calvingInWords(words, work.calvingNear),
  ];
  const said = lines.filter((line) => line !== undefined);
  return linkTo(slug, animal.animal, said, isSent ? words.say('form.animals.sent') : '');
}

/** The trimmer's own first thing due today or soon. */
function firstDue({ due }: CaseWork, today: string): DueItem | undefined {
  const soon = addDays(today, formLayout.dueWithinDays);
  return openDue(due).find(
    ({ standing, who, by }) => who === 'trimmer' && (standing === 'overdue' || by <= soon),
  );
}
