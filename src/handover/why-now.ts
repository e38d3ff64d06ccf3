import { told } from '../reference/words.js';
import type { ActionBox } from '../book/animal-page-data.js';
import type { Visit } from '../record/visit.js';
import { noticeRank } from '../reference/notices.js';
import { aboutInWords, answerInWords, evidenceSentence } from '../words/compose-due.js';
import { dayInWords, paragraph, sentenceCase } from '../words/day-and-place.js';
import { type HandoverOf, cut, cutName, firstOf } from './handover-page.js';

/**
 * Why she is for the vet: each notice that stands, most urgent first, since when, and that it was worked out from the
 * record. A prompt, never a diagnosis.
 */
export function whyNow({ words, work, level, leftOut }: HandoverOf): ActionBox {
  const { animal } = work.record;
  const standing = work.notices
    .filter((notice) => notice.standing)
    .toSorted((a, b) => noticeRank(a.rule) - noticeRank(b.rule));
  const items = firstOf(leftOut, 'notices', standing, level.notices).map((notice) => ({
    lead: words.say('handover.why.since', {
      urgency: words.say(`notice.urgency.${notice.urgency}`),
      day: dayInWords(words, notice.raised),
    }),
    text: words.say('notice.line', {
      title: words.say(`notice.rule.${notice.rule}.title`),
      evidence: evidenceSentence(words, animal, notice.evidence),
    }),
  }));
  return {
    heading: words.say('handover.why.heading'),
    items: items.length > 0 ? items : [{ text: words.say('handover.why.none') }],
  };
}

/** What was asked: for this page, then in her record, the latest first, each with its answer or that none has come. */
export function trimmerAsks({ words, work, today, ask, level, leftOut }: HandoverOf): ActionBox {
  const { visits } = work.record.animal;
  const ofRun = work.standing.episode.visits.map((at) => visits[at]!);
  const written = ofRun.flatMap((visit) => (visit.vet ? [{ visit, asked: visit.vet }] : [])).toReversed();
  const now = ask === undefined ? [] : [{ lead: words.say('handover.asks.now', { day: dayInWords(words, today) }), text: told(ask) }]; // prettier-ignore
  const items = firstOf(leftOut, 'asks', written, level.asks).map(({ visit, asked }) => ({
    lead: words.say('handover.asks.on', {
      day: dayInWords(words, asked.asked),
      by: told(cutName(leftOut, visit.by)),
    }),
    text: paragraph(
      words.say('handover.asks.why', { why: told(cut(leftOut, asked.why, level.characters)) }),
      sentenceOf(aboutInWords(words, asked.about)),
      answerTo(asked.asked),
    ),
  }));
  const all = [...now, ...items];
  return {
    heading: words.say('handover.asks.heading'),
    items: all.length > 0 ? all : [{ text: words.say('handover.asks.none') }],
  };

  function answerTo(asked: string): string {
    const visit = visits.find(
      (one): one is Visit & { 'vet-answer': NonNullable<Visit['vet-answer']> } =>
        one.date <= today && one['vet-answer']?.to === asked,
    );
    if (!visit) return words.say('handover.asks.open');
    const { by, reply } = visit['vet-answer'];
    return paragraph(
      words.say('handover.asks.answered', {
        by: told(cutName(leftOut, by)),
        day: dayInWords(words, visit.date),
        reply: told(cut(leftOut, reply, level.characters)),
      }),
      sentenceOf(answerInWords(words, visit['vet-answer'])),
    );
  }
}

function sentenceOf(phrase: string | undefined): string | undefined {
  return phrase ? `${sentenceCase(phrase)}.` : undefined;
}
