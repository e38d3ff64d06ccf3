import { caseChip, isOpenStanding, lesionSentence, nameOf, standingChip } from '../words/compose-standing.js';
import { placeInWords, sentenceCase } from '../words/day-and-place.js';
import { told } from '../reference/words.js';
import { type HandoverOf, leftOutSentence } from './handover-page.js';
import { herState } from './her-state.js';
import { visitHistory } from './history.js';
import { latestPictures, picturesOnPage } from './lesion-pictures.js';
import { treatmentsTable } from './treatments.js';
import { trimmerAsks, whyNow } from './why-now.js';
import { type ActionBox } from '../book/animal-page-data.js';
import type { BookFigure, Fact } from '../book/page-parts.js';
import { feetIcon } from '../figure/feet-icon.js';
import { episodesOf } from '../healing/episode.js';
import { type LesionStanding, standingOrder } from '../healing/standing.js';
import { given } from '../record/given.js';

/** A handover to the veterinary surgeon as finished page data: every string worded, nothing left to work out. */
export type HandoverPage = ReturnType<typeof handoverPage>;

export function handoverPage(of: HandoverOf, figure: BookFigure | undefined) {
  const { language, words, say, cut, cutName, name, wholeDay, farm, work, animal } = of;
  const day = wholeDay(of.today);
  const said = { animal: cutName(animal.animal), farm: name(farm.farm.farm), day };
  const shown = shownLesions(of);
  const history = visitHistory(of, shown);
  const leads = work.standing.leading ?? shown[0];
  const shots = picturesOnPage(of, latestPictures(animal, shown, of.today));
  const open = work.standing.lesions.filter(isOpenStanding);
  const born = animal.born && say('born', { day: wholeDay(animal.born) });
  const identity = [animal.tag, animal.electronic, told(animal.breed), born];
  const page = {
    language,
    paper: farm.farm.paper ?? ('A4' as const),
    title: say('title', said),
    skip: say('skip'),
    kicker: say('kicker', said),
    heading: said.animal,
    /** The lesion that leads, with its place. */
    what: leads ? sentenceCase(nameOf(words, animal, leads.lesion, leads.code)) : words.say('cow.no-lesion'),
    /** Four feet with hers marked: an SVG of our own. */
    feet: feetIcon(
      open.flatMap(({ lesion }) => animal.lesions[lesion] ?? []),
      words.say('cow.feet'),
    ),
    chip: caseChip(words, work.standing),
    /** Who she is, in a line, and how she is to handle. */
    identity: words.dots(identity.map((part) => part && cutName(part))),
    ...given({ handling: animal.handling && say('handling', { handling: told(cut(animal.handling)) }) }),
    parties: parties(of),
    why: whyNow(of),
    /** Whether anything in her record calls for the vet. */
    calls: work.notices.some((notice) => notice.standing),
    asks: trimmerAsks(of),
    lesions: lesionsInWords(of, shown),
    ...given({
      /** Her wall, ulcer or stages on true time, where a side has room for it. */
      figure,
      history: history && { heading: say('history.heading'), table: history },
      pictures: shots.length > 0 ? { heading: say('pictures.heading'), shots } : undefined,
    }),
    state: herState(of),
    treatments: treatmentsTable(of),
    reply: replyPart(of),
    foot: say('foot', { day }),
  };
  // Last, when all parts have told what had no room.
  return { ...page, leftOut: leftOutSentence(words, of.leftOut) };
}

/** Room for the vet's answer, how to send it, and how it gets into her record. */
function replyPart(of: HandoverOf) {
  const { business, farm, today, animal, name, cutName } = of;
  const say = (key: string, values = {}) => of.say(`reply.${key}`, values);
  const { trimmer, phone, email } = business;
  const address = business['reply-to'] ?? email;
  const [one, other] = [
    ...(address ? [say('mail', { address: name(address) })] : []),
    ...(phone ? [say('phone', { phone: name(phone) })] : []),
  ];
  const asked = openQuestion(of);
  const note = say(asked === undefined ? 'note-asked' : 'note-to', {
    farm: name(farm.farm.farm),
    day: today,
    animal: cutName(animal.animal),
    trimmer: trimmer ? name(trimmer) : say('your-name'),
    asked: asked ?? '',
  });
  const ways = one && (other === undefined ? one : say('or', { one, other }));
  return {
    heading: say('heading'),
    lead: ways === undefined ? say('lead-no-ways') : say('lead', { ways }),
    /** The same for a mail, where there is nothing to write on. */
    mail: say('mail-lead'),
    blanks: [say('seen'), say('by'), say('again')],
    how: say('how', { command: 'growdown take', note }),
  };
}

/** The latest question in her record that has no answer, by the day it was asked. */
function openQuestion({ animal, today }: HandoverOf): string | undefined {
  const visits = animal.visits.filter(({ date }) => date <= today);
  const answered = new Set(visits.flatMap((visit) => visit['vet-answer']?.to ?? []));
  return visits.flatMap(({ vet }) => (vet && !answered.has(vet.asked) ? [vet.asked] : [])).at(-1);
}

/** For whom the page is, from whom, and whose cow she is. */
function parties({ words, say, business, farm: { farm }, name }: HandoverOf): Fact[] {
  const { vet, contact } = farm;
  const party = (key: string, parts: readonly (string | undefined)[], none?: string): Fact => ({
    label: say(key),
    value: words.semicolons(parts.map(name)) || (none ? say(none) : ''),
  });
  return [
    party('to', [vet?.practice, vet?.name, vet?.phone, vet?.email], 'no-vet'),
    party('from', [business.trimmer, business.business, business.phone, business.email], 'no-trimmer'),
    party('farm', [farm.farm, farm.holding, farm.address, contact?.name, contact?.phone]),
  ];
}

/** The lesions a page describes: those not healed first, of these those a notice stands for, then the most telling standing. */
function shownLesions({ work, level, firstOf }: HandoverOf): readonly LesionStanding[] {
  const called = new Set(
    work.notices.flatMap(({ standing, lesion }) => (standing && lesion ? [lesion] : [])),
  );
  const inOrder = work.standing.lesions.toSorted(
    (a, b) =>
      Number(!isOpenStanding(a)) - Number(!isOpenStanding(b)) ||
      Number(!called.has(a.lesion)) - Number(!called.has(b.lesion)) ||
      standingOrder.indexOf(a.standing) - standingOrder.indexOf(b.standing),
  );
  return firstOf('lesions', inOrder, level.lesions);
}

/** Each lesion with its full name, its place and its status, in the words of the book. */
function lesionsInWords(of: HandoverOf, shown: readonly LesionStanding[]): ActionBox {
  const { words, say, wholeDay, work, animal, today } = of;
  const items = shown.map((lesion) => ({
    lead: `${lesion.lesion}: ${sentenceCase(nameOf(words, animal, lesion.lesion, lesion.code))}.`,
    text: `${standingChip(words, lesion)}. ${lesionSentence(words, animal, lesion)}`,
  }));
  const before = episodesOf(animal, today).flatMap(({ ended }) =>
    ended === undefined || ended === work.standing.episode.ended ? [] : [ended],
  );
  const last = before.at(-1);
  const earlier = last && say('lesions.earlier', { count: before.length, day: wholeDay(last) });
  return {
    heading: say('lesions.heading'),
    items: [
      ...(items.length > 0 ? items : [{ text: say('lesions.none') }]),
      ...marksInWords(of),
      ...(earlier ? [{ text: earlier }] : []),
    ],
  };
}

/** How far each growth mark has come down in this lameness episode: it tells slow horn from a gap that creeps up. */
function marksInWords({ words, say, day, work, animal, level, firstOf }: HandoverOf): { text: string }[] {
  const read = Object.entries(animal.marks ?? {}).flatMap(([name, mark]) => {
    const readings = work.standing.episode.visits.flatMap((at) => {
      const { date, found } = animal.visits[at]!;
      const distance = found?.[name]?.distance;
      return distance === undefined ? [] : [{ date, distance }];
    });
    const [first, last] = [readings[0], readings.at(-1)];
    return first && last && first !== last ? [{ name, mark, first, last }] : [];
  });
  return firstOf('marks', read, Math.max(0, level.lesions - 1)).map(({ name, mark, first, last }) => ({
    text: say(`lesions.${mark['groove-from'] ? 'groove' : 'mark'}`, {
      name,
      place: placeInWords(words, mark.foot, mark.claw),
      first: first.distance,
      from: day(first.date),
      last: last.distance,
      to: day(last.date),
    }),
  }));
}
