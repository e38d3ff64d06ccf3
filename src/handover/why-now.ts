import { told } from '../reference/words.js';
import type { ActionBox } from '../book/animal-page-data.js';
import type { Visit } from '../record/visit.js';
import { noticeRank } from '../reference/notices.js';
import { aboutInWords, answerInWords, evidenceSentence } from '../words/compose-due.js';
import { paragraph, sentenceCase } from '../words/day-and-place.js';
import type { HandoverOf } from './handover-page.js';

/**
 * Why she is for the vet: each notice in force, most urgent first, since when, and that it was worked out from the
 * record. A prompt, never a diagnosis.
 */
export function whyNow({ words, say, wholeDay, work, animal, level, firstOf }: HandoverOf): ActionBox {
  const standing = work.notices
    .filter((notice) => notice.standing)
    .toSorted((a, b) => noticeRank(a.rule) - noticeRank(b.rule));
  const items = firstOf('notices', standing, level.notices).map(({ urgency, raised, rule, evidence }) => ({
    lead: say('why.since', { urgency: words.say(`notice.urgency.${urgency}`), day: wholeDay(raised) }),
    text: words.say('notice.line', {
      title: words.say(`notice.rule.${rule}.title`),
      evidence: evidenceSentence(words, animal, evidence),
    }),
  }));
  return { heading: say('why.heading'), items: items.length > 0 ? items : [{ text: say('why.none') }] };
}

/** What was asked: for this page, then in her record, the latest first, each with its answer or that none has come. */
export function trimmerAsks(of: HandoverOf): ActionBox {
  const { words, say, wholeDay, work, today, ask, level, firstOf, cut, name } = of;
  const { visits } = work.record.animal;
  const ofRun = work.standing.episode.visits.map((at) => visits[at]!);
  const written = ofRun.flatMap(({ by, vet }) => (vet ? [{ by, vet }] : [])).toReversed();
  const now = ask === undefined ? [] : [{ lead: say('asks.now', { day: wholeDay(today) }), text: told(ask) }];
  const items = firstOf('asks', written, level.asks).map(({ by, vet: { asked, why, about } }) => ({
    lead: say('asks.on', { day: wholeDay(asked), by: name(by) }),
    text: paragraph(
      say('asks.why', { why: told(cut(why)) }),
      sentenceOf(aboutInWords(words, about)),
      answerTo(of, asked),
    ),
  }));
  const all = [...now, ...items];
  return { heading: say('asks.heading'), items: all.length > 0 ? all : [{ text: say('asks.none') }] };
}

function answerTo({ words, say, wholeDay, animal, today, cut, name }: HandoverOf, asked: string): string {
  const visit = animal.visits.find(
    (one): one is Visit & { 'vet-answer': NonNullable<Visit['vet-answer']> } =>
      one.date <= today && one['vet-answer']?.to === asked,
  );
  if (!visit) return say('asks.open');
  const { by, reply } = visit['vet-answer'];
  return paragraph(
    say('asks.answered', { by: name(by), day: wholeDay(visit.date), reply: told(cut(reply)) }),
    sentenceOf(answerInWords(words, visit['vet-answer'])),
  );
}

function sentenceOf(phrase: string | undefined): string | undefined {
  return phrase ? `${sentenceCase(phrase)}.` : undefined;
}
