import type { Business } from '../record/business.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { FarmRecord } from '../record/practice.js';
import type { CaseWork } from '../schedule/case-work.js';
import { caseChip } from '../words/compose-standing.js';
import { dayInWords } from '../words/day-in-words.js';
import { wordsOf } from '../words/words.js';
import { handoverLimits, type Level } from './handover-limits.js';
import type { HandoverOf } from './handover-of.js';
import type { HandoverPage } from './handover-page.js';
import { herState } from './her-state.js';
import { visitHistory } from './history.js';
import { cutName, leftOutSentence, nothingLeftOut } from './left-out.js';
import { latestPictures, type MadePicture, picturesOnPage } from './lesion-pictures.js';
import { parties, whoSheIs } from './parties.js';
import { footSentence, replyPart } from './reply-part.js';
import { fitsOneSheet } from './room-on-page.js';
import { lesionsInWords, shownLesions } from './shown-lesions.js';
import { treatmentsTable } from './treatments.js';
import { trimmerAsks, whyNow } from './why-now.js';

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
  for (const level of levels) {
    const page = atLevel(given, level);
    if (fitsOneSheet(page)) return page;
  }
  return atLevel(given, levels.at(-1)!);
}

function atLevel({ business, farm, work, today, ask, pictures }: HandoverFor, level: Level): HandoverPage {
  const language = farm.farm.language ?? business.language ?? 'en-GB';
  const words = wordsOf(language);
  const leftOut = nothingLeftOut(level);
  const of: HandoverOf = { words, business, farm, work, today, ask, level, leftOut };
  const { animal } = work.record;
  const day = dayInWords(words, today);
  const said = { animal: cutName(leftOut, animal.animal), farm: cutName(leftOut, farm.farm.farm), day };
  const shown = shownLesions(of);
  const history = visitHistory(of, shown);
  const shots = picturesOnPage(of, latestPictures(animal, shown, today), pictures);
  const page = {
    language,
    paper: farm.farm.paper ?? 'A4',
    title: words.say('handover.title', said),
    skip: words.say('handover.skip'),
    kicker: words.say('handover.kicker', said),
    heading: words.say('handover.of', said),
    chip: caseChip(words, work.standing),
    ...whoSheIs(of),
    parties: parties(of),
    why: whyNow(of),
    calls: work.notices.some((notice) => notice.standing),
    asks: trimmerAsks(of),
    lesions: lesionsInWords(of, shown),
    ...(history ? { history: { heading: words.say('handover.history.heading'), table: history } } : {}),
    state: herState(of),
    ...(shots.length > 0 ? { pictures: { heading: words.say('handover.pictures.heading'), shots } } : {}),
    treatments: treatmentsTable(of),
    reply: replyPart(of),
    foot: footSentence(of),
  };
  // Last, when all parts have told what had no room.
  return { ...page, leftOut: leftOutSentence(words, leftOut) };
}
