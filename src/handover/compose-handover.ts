import type { Business } from '../record/business.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { FarmRecord } from '../record/practice.js';
import type { CaseWork } from '../schedule/case-work.js';
import { caseChip, isOpenStanding, lesionSentence, nameOf, standingChip } from '../words/compose-standing.js';
import { dayInWords, placeInWords, sentenceCase, planDay } from '../words/day-and-place.js';
import { told, wordsOf } from '../reference/words.js';
import { handoverLimits, type Level } from './handover-limits.js';
import {
  type HandoverOf,
  type HandoverPage,
  cutName,
  leftOutSentence,
  nothingLeftOut,
  cut,
  firstOf,
} from './handover-page.js';
import { herState } from './her-state.js';
import { visitHistory } from './history.js';
import { latestPictures, type MadePicture, picturesOnPage } from './lesion-pictures.js';
import { fitsOneSheet } from './room-on-page.js';
import { treatmentsTable } from './treatments.js';
import { trimmerAsks, whyNow } from './why-now.js';
import { type ActionBox } from '../book/animal-page-data.js';
import { animalFigures } from '../book/animal-figures.js';
import { placeCases } from '../book/compose-book.js';
import type { BookFigure, Fact } from '../book/page-parts.js';
import { feetIcon } from '../figure/feet-icon.js';
import { episodesOf } from '../healing/episode.js';
import { type LesionStanding, standingOrder } from '../healing/standing.js';

/** Whose handover, for which day. */
export interface HandoverFor {
  readonly business: Business;
  readonly farm: FarmRecord;
  readonly work: CaseWork;
  readonly today: CalendarDay;
  /** A question given for this page alone. */
  readonly ask?: string | undefined;
  /** Pictures made ready, by the file's name as the record writes it. */
  readonly pictures: ReadonlyMap<string, MadePicture>;
}

/**
 * A handover to the veterinary surgeon, one printed page: who she is, why now, what is asked, what was measured, how she
 * walks off the block and on it, what she was given, and room for the reply. Never a diagnosis, and no money.
 *
 * Where a record is too long for one sheet, less of each part stands on it, by the levels of `shared/handover.json`; the
 * page says what is left out and where it stands. The last level is taken even where it may not fit.
 *
 * Shape:   a case worked out for the day → page data, the same for the same input
 * Checked: tests/handover/, tests/browser/handover.test.ts
 */
export function composeHandover(given: HandoverFor): HandoverPage {
  const { levels } = handoverLimits;
  const drawn = new Map<number, BookFigure | undefined>();
  const page = (level: Level): HandoverPage => {
    const { figure: tallest } = level;
    if (!drawn.has(tallest)) drawn.set(tallest, firstDrawing(given, tallest));
    return atLevel(given, level, drawn.get(tallest));
  };
  for (const level of levels) {
    const one = page(level);
    // A level that asks for a drawing is for her who has one.
    if ((level.figure === 0 || one.figure) && fitsOneSheet(one)) return one;
  }
  return page(levels.at(-1)!);
}

function atLevel(
  { business, farm, work, today, ask, pictures }: HandoverFor,
  level: Level,
  figure: BookFigure | undefined,
): HandoverPage {
  const language = farm.farm.language ?? business.language ?? 'en-GB';
  const words = wordsOf(language);
  const leftOut = nothingLeftOut(level);
  const of: HandoverOf = { words, business, farm, work, today, ask, level, leftOut };
  const { animal } = work.record;
  const day = dayInWords(words, today);
  const said = { animal: cutName(leftOut, animal.animal), farm: told(cutName(leftOut, farm.farm.farm)), day };
  const shown = shownLesions(of);
  const history = visitHistory(of, shown);
  const leads = work.standing.leading ?? shown[0];
  const shots = picturesOnPage(of, latestPictures(animal, shown, today), pictures);
  const page = {
    language,
    paper: farm.farm.paper ?? 'A4',
    title: words.say('handover.title', said),
    skip: words.say('handover.skip'),
    kicker: words.say('handover.kicker', said),
    heading: said.animal,
    what:
      leads === undefined
        ? words.say('cow.no-lesion')
        : sentenceCase(nameOf(words, animal, leads.lesion, leads.code)),
    feet: feetIcon(
      work.standing.lesions.filter(isOpenStanding).flatMap(({ lesion }) => animal.lesions[lesion] ?? []),
      words.say('cow.feet'),
    ),
    chip: caseChip(words, work.standing),
    ...whoSheIs(of),
    parties: parties(of),
    why: whyNow(of),
    calls: work.notices.some((notice) => notice.standing),
    asks: trimmerAsks(of),
    lesions: lesionsInWords(of, shown),
    ...(figure ? { figure } : {}),
    ...(history ? { history: { heading: words.say('handover.history.heading'), table: history } } : {}),
    state: herState(of),
    ...(shots.length > 0 ? { pictures: { heading: words.say('handover.pictures.heading'), shots } } : {}),
    treatments: treatmentsTable(of),
    reply: replyPart(of),
    foot: words.say('handover.foot', { day }),
  };
  // Last, when all parts have told what had no room.
  return { ...page, leftOut: leftOutSentence(words, leftOut) };
}

/** Her wall, else her ulcer, else the stages, else what runs along her days: the first drawing of her sheet in the book. */
function firstDrawing(
  { business, farm: { farm }, work, today }: HandoverFor,
  tallestPx: number,
): BookFigure | undefined {
  if (tallestPx === 0) return undefined;
  const words = wordsOf(farm.language ?? business.language ?? 'en-GB');
  return animalFigures(words, farm, placeCases([work])[0]!, today, tallestPx, true).find(
    ({ phone }) => phone !== undefined,
  );
}

/** Room for the vet's answer, how to send it, and how it gets into her record. */
function replyPart(of: HandoverOf): HandoverPage['reply'] {
  const { words, business, farm, work, today, leftOut } = of;
  const say = (key: string, values = {}) => words.say(`handover.reply.${key}`, values);
  const address = business['reply-to'] ?? business.email;
  const ways = [
    ...(address ? [say('mail', { address: told(cutName(leftOut, address)) })] : []),
    ...(business.phone ? [say('phone', { phone: told(cutName(leftOut, business.phone)) })] : []),
  ];
  const [one, other] = ways;
  const asked = openQuestion(of);
  const note = say(asked === undefined ? 'note-asked' : 'note-to', {
    farm: told(cutName(leftOut, farm.farm.farm)),
    day: today,
    animal: cutName(leftOut, work.record.animal.animal),
    trimmer: business.trimmer ? told(cutName(leftOut, business.trimmer)) : say('your-name'),
    asked: asked ?? '',
  });
  return {
    heading: say('heading'),
    lead:
      one === undefined
        ? say('lead-no-ways')
        : say('lead', { ways: other === undefined ? one : say('or', { one, other }) }),
    mail: say('mail-lead'),
    blanks: [say('seen'), say('by'), say('again')],
    how: say('how', { command: 'growdown take', note }),
  };
}

/** The latest question in her record that has no answer, by the day it was asked. */
function openQuestion({ work, today }: HandoverOf): string | undefined {
  const visits = work.record.animal.visits.filter(({ date }) => date <= today);
  const answered = new Set(visits.flatMap((visit) => visit['vet-answer']?.to ?? []));
  return visits.flatMap(({ vet }) => (vet && !answered.has(vet.asked) ? [vet.asked] : [])).at(-1);
}

/** Who she is, in a line, and how she is to handle. */
function whoSheIs({ words, work, level, leftOut }: HandoverOf): Pick<HandoverPage, 'identity' | 'handling'> {
  const { animal } = work.record;
  const { handling } = animal;
  return {
    identity: words.dots(
      [
        animal.tag,
        animal.electronic,
        told(animal.breed),
        animal.born && words.say('handover.born', { day: dayInWords(words, animal.born) }),
      ].flatMap((part) => (part === undefined ? [] : cutName(leftOut, part))),
    ),
    ...(handling === undefined
      ? {}
      : {
          handling: words.say('handover.handling', {
            handling: told(cut(leftOut, handling, level.characters)),
          }),
        }),
  };
}

/** For whom the page is, from whom, and whose cow she is. */
function parties({ words, business, farm: { farm }, leftOut }: HandoverOf): Fact[] {
  const names = (...parts: (string | undefined)[]) =>
    words.semicolons(parts.map((part) => (part === undefined ? undefined : told(cutName(leftOut, part)))));
  const { vet, contact } = farm;
  return [
    {
      label: words.say('handover.to'),
      value: names(vet?.practice, vet?.name, vet?.phone, vet?.email) || words.say('handover.no-vet'),
    },
    {
      label: words.say('handover.from'),
      value:
        names(business.trimmer, business.business, business.phone, business.email) ||
        words.say('handover.no-trimmer'),
    },
    {
      label: words.say('handover.farm'),
      value: names(farm.farm, farm.holding, farm.address, contact?.name, contact?.phone),
    },
  ];
}

/** The lesions a page tells of: those not healed first, of these those a notice stands for, then the most telling standing. */
function shownLesions({ work, level, leftOut }: HandoverOf): readonly LesionStanding[] {
  const called = new Set(
    work.notices.flatMap(({ standing, lesion }) => (standing && lesion ? [lesion] : [])),
  );
  const inOrder = work.standing.lesions.toSorted(
    (a, b) =>
      Number(!isOpenStanding(a)) - Number(!isOpenStanding(b)) ||
      Number(!called.has(a.lesion)) - Number(!called.has(b.lesion)) ||
      standingOrder.indexOf(a.standing) - standingOrder.indexOf(b.standing),
  );
  return firstOf(leftOut, 'lesions', inOrder, level.lesions);
}

/** Each lesion with its full name, its place and how it stands, in the words of the book. */
function lesionsInWords(of: HandoverOf, shown: readonly LesionStanding[]): ActionBox {
  const { words, work, today } = of;
  const { animal } = work.record;
  const items = shown.map((lesion) => ({
    lead: `${lesion.lesion}: ${sentenceCase(nameOf(words, animal, lesion.lesion, lesion.code))}.`,
    text: `${standingChip(words, lesion)}. ${lesionSentence(words, animal, lesion)}`,
  }));
  const earlier = episodesOf(animal, today).filter(({ ended }) => ended !== undefined);
  const before = earlier.filter((episode) => episode.ended !== work.standing.episode.ended);
  const last = before.at(-1)?.ended;
  return {
    heading: words.say('handover.lesions.heading'),
    items: [
      ...(items.length > 0 ? items : [{ text: words.say('handover.lesions.none') }]),
      ...marksInWords(of),
      ...(last === undefined
        ? []
        : [
            {
              text: words.say('handover.lesions.earlier', {
                count: before.length,
                day: dayInWords(words, last),
              }),
            },
          ]),
    ],
  };
}

/** How far each growth mark has come down in this lameness episode: it tells slow horn from a gap that creeps up. */
function marksInWords({ words, work, level, leftOut, today }: HandoverOf): { text: string }[] {
  const { animal } = work.record;
  const read = Object.entries(animal.marks ?? {}).flatMap(([name, mark]) => {
    const readings = work.standing.episode.visits.flatMap((at) => {
      const { date, found } = animal.visits[at]!;
      const distance = found?.[name]?.distance;
      return distance === undefined ? [] : [{ date, distance }];
    });
    const [first, last] = [readings[0], readings.at(-1)];
    return first && last && first !== last ? [{ name, mark, first, last }] : [];
  });
  return firstOf(leftOut, 'marks', read, Math.max(0, level.lesions - 1)).map(
    ({ name, mark, first, last }) => ({
      text: words.say(`handover.lesions.${mark['groove-from'] ? 'groove' : 'mark'}`, {
        name,
        place: placeInWords(words, mark.foot, mark.claw),
        first: first.distance,
        from: planDay(words, first.date, today),
        last: last.distance,
        to: planDay(words, last.date, today),
      }),
    }),
  );
}
