import { feetIcon } from '../figure/feet-icon.js';
import { microStrip } from '../figure/micro-strip.js';
import { wallStripInput } from '../figure/wall-strip-input.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { Farm } from '../record/farm.js';
import type { Words } from '../reference/words.js';
import { nextLift } from '../schedule/next-lift.js';
import { caseChip, isOpenStanding } from '../words/compose-standing.js';
import { dayInShort, lesionInWords, mm } from '../words/day-and-place.js';
import type { PlacedCase } from './animal-page-data.js';

/** A cow as a list names her, linked to her sheet. */
export function cowLink({ id, record }: PlacedCase) {
  return { href: `#${id}`, number: record.animal.animal };
}

/**
 * One open cow's row on a farm's first side.
 *
 * Checked: tests/book/page-one.test.ts
 */
export function cowRow(words: Words, farm: Farm, one: PlacedCase, today: CalendarDay) {
  const { animal, slug } = one.record;
  const say = (key: string, values = {}) => words.say(`one.cows.${key}`, values);
  const day = (of: CalendarDay) => dayInShort(words, of);
  const leading = one.standing.leading ?? one.standing.lesions[0];
  const declared = leading && animal.lesions[leading.lesion];
  const gap = one.growth.lesions.find(
    ({ lesion, readings }) => lesion === leading?.lesion && readings.length > 0,
  );
  const lift = nextLift(farm, one, today);
  const late = one.due.find(({ what, standing }) => what === 'recheck' && standing === 'overdue');
  const strip = gap && wallStripInput(gap, animal, [], `one-${slug}`, today);
  const top = strip?.bars.findLast(({ topMm, kind }) => topMm !== undefined && kind !== 'not-reached')?.topMm;
  const gait = one.standing.gait.last;
  const place = declared
    ? say('place', {
        foot: words.say(`figure.time.short-foot.${declared.foot}`),
        claw: declared.claw ? words.say(`vocabulary.claw.${declared.claw}`) : '',
      }).trim()
    : '';
  const out = outOf(words, one, leading?.lesion);
  const standing = caseChip(words, one.standing);
  const isUlcer = one.closings.some(({ lesion }) => lesion === leading?.lesion);
  const open = one.standing.lesions.filter(isOpenStanding);
  const title = words.say('figure.small.title', { lesion: strip?.lesion ?? '', place });
  return {
    ...cowLink(one),
    feet: feetIcon(
      open.flatMap(({ lesion }) => animal.lesions[lesion] ?? []),
      words.say('cow.feet'),
    ),
    place,
    lesion: leading ? lesionInWords(words, leading.code) : words.say('cow.no-lesion'),
    standing,
    walk: gait ? say(`walk-${gait.block}`, { score: gait.score, day: day(gait.date) }) : '',
    /** Her wall on the axis that all rows share. */
    strip: strip ? microStrip(`${strip.id}-m`, strip.bars, today, title) : '',
    reading: gap && top !== undefined ? say('reading', { top: mm(top), wall: mm(gap.wall.mm) }) : '',
    out,
    lift: lift === undefined ? '–' : day(lift),
    /** The day of a recheck that is overdue. */
    ...(late ? { lateLift: say('late', { day: day(late.by) }) } : {}),
    sheet: String(one.place + 1),
    /** Her row as one line of a letter. */
    line: leading
      ? say(`line-${out === noDate ? 'undated' : isUlcer ? 'closing' : 'out'}`, {
          what: words.commas([place, words.say(`vocabulary.lesion-name.${leading.code}`)]),
          standing,
          out,
        })
      : standing,
  };
}

/** Stands where no date is given. */
export const noDate = '–';

/** The days between which it should be out or closed; a dash where no date is given. */
function outOf(words: Words, one: PlacedCase, lesion: string | undefined): string {
  const growth = one.growth.lesions.find((line) => line.lesion === lesion)?.forecast;
  const closing = one.closings.find((each) => each.lesion === lesion)?.forecast;
  const out =
    growth?.outcome === 'range' ? growth.out : closing?.outcome === 'range' ? closing.out : undefined;
  if (!out?.early) return noDate;
  const early = dayInShort(words, out.early);
  if (out.late === null) return words.say('one.cows.from', { early });
  const ifSound = growth?.outcome === 'range' && growth.ifSoundHornFollows;
  return words.say(ifSound ? 'one.cows.range-if' : 'one.cows.range', {
    early,
    late: dayInShort(words, out.late),
  });
}
