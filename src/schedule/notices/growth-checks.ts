import type { JudgedReading, LesionGrowth } from '../../growth/animal-growth.js';
import type { Judged, NoticeCheck, NoticeContext, VisitLook } from './notice-rule.js';
import { signsOf, swellings } from './sign-checks.js';

/** What the readings of a wall gap ask for: at the coronet, run up, held. */
export const growthChecks: NoticeCheck = (context, look) => {
  const { at, visit, score } = look;
  return context.growth.lesions.flatMap((line): Judged[] => {
    const about = { lesion: line.lesion, foot: line.foot };
    const found = visit.found?.[line.lesion];
    const index = line.readings.findIndex((reading) => reading.visit === at);
    const reading = line.readings[index];
    // A lasting fault forms anew from the coronet by its nature; neither it nor a closed gap is followed by these.
    if (found?.state === 'healed' || found?.state === 'lasting' || found?.joined)
      return (['at-coronet', 'coronet-hot-or-lame', 'ran-up', 'held'] as const).map((rule) => ({
        ...about,
        rule,
        holds: false,
      }));
    if (!reading) {
      const said = found?.['ran-up'] === true;
      return said ? [{ ...about, ...ranUp(look, line, saidBefore(context, line, at)) }] : [];
    }
    const before = line.readings[index - 1];
    const coronet = atCoronet(context, line, reading, before);
    const up = reading.kind === 'ran-up';
    const standing = line.readings.length - 1 === index && line.heldNow?.sure === true;
    return [
      { ...about, ...coronet, values: { lesion: line.lesion } },
      {
        ...about,
        rule: 'coronet-hot-or-lame',
        holds: coronet.holds && (signsOf(look, line.foot).has('heat') || score?.lame === true),
        values: { lesion: line.lesion },
      },
      up
        ? { ...about, ...ranUp(look, line, before?.kind === 'ran-up') }
        : { ...about, rule: 'ran-up', holds: false },
      {
        ...about,
        rule: 'held',
        holds: reading.kind === 'held' || standing,
        values: {
          lesion: line.lesion,
          since: (standing ? line.heldNow?.since : before?.date) ?? reading.date,
        },
      },
    ];
  });
};

function atCoronet(
  { standing }: NoticeContext,
  line: LesionGrowth,
  reading: JudgedReading,
  before: JudgedReading | undefined,
): Judged {
  const isLast = reading === line.readings.at(-1);
  const word = isLast ? standing.lesions.find(({ lesion }) => lesion === line.lesion)?.standing : undefined;
  const still = (reading.topMm === 0 && before?.topMm === 0) || word === 'still-at-coronet';
  const holds = reading.topMm === 0 || still || word === 'at-coronet';
  return { rule: 'at-coronet', holds, variant: still ? 'still' : 'once' };
}

/** Once with pus or swelling, or twice running without. */
function ranUp(look: VisitLook, line: LesionGrowth, twice: boolean): Judged {
  const signs = signsOf(look, line.foot);
  const withSigns = signs.has('pus') || swellings.some((sign) => signs.has(sign));
  return {
    rule: 'ran-up',
    holds: withSigns || twice,
    variant: withSigns ? 'with-signs' : 'twice',
    values: { lesion: line.lesion, day: look.visit.date },
  };
}

function saidBefore({ animal }: NoticeContext, line: LesionGrowth, at: number): boolean {
  const before = animal.visits.slice(0, at).findLast(({ found }) => found?.[line.lesion])?.found?.[
    line.lesion
  ];
  return before?.['ran-up'] === true || line.readings.findLast(({ visit }) => visit < at)?.kind === 'ran-up';
}
