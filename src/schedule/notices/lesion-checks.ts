import { looksAt, type Look } from '../../healing/looks-at-lesion.js';
import { codeOn } from '../../record/code-of-lesion.js';
import { daysBetween } from '../../record/calendar-day.js';
import type { Lesion } from '../../record/lesion.js';
import type { LesionCode } from '../../record/words.js';
import { noticeLimit, type NoticeRuleId } from '../../reference/notices.js';
import type { Judged, NoticeCheck, NoticeContext } from './notice-rule.js';

/** What a lesion's own findings ask for, at the visits that looked at it. */
export const lesionChecks: NoticeCheck = (context, { at, visit }) =>
  Object.keys(visit.found ?? {}).flatMap((name): Judged[] => {
    const lesion = context.animal.lesions[name];
    const looks = looksAt(context.animal, name, context.today).filter((look) => look.visit <= at);
    if (!lesion || looks.at(-1)?.visit !== at) return [];
    const code = codeOn(name, lesion, context.animal.visits, at);
    return checksOf(context, name, lesion, code, looks);
  });

function checksOf(
  context: NoticeContext,
  name: string,
  lesion: Lesion,
  code: LesionCode,
  looks: readonly Look[],
): Judged[] {
  const now = looks.at(-1);
  const before = looks.at(-2);
  if (!now) return [];
  const about = { lesion: name, foot: lesion.foot };
  const judge = (
    rule: NoticeRuleId,
    holds: boolean,
    values: Judged['values'] = {},
    variant?: string,
  ): Judged =>
    holds
      ? { rule, holds, ...about, values: { lesion: name, ...values }, ...(variant ? { variant } : {}) }
      : { rule, holds, lesion: name };
  const healed = now.found.state === 'healed' || now.found.stage === 'M0';
  const { signs = [] } = now.found;
  const pus = signs.includes('pus');
  const topMm = looks.findLast(({ found }) => found.top !== undefined)?.found.top;
  const near = topMm !== undefined && topMm <= noticeLimit('pus-near-coronet', 'top');
  const opened = pus ? openedOn(context, name, looks) : undefined;
  const pusDays = opened ? daysBetween(opened, now.date) : 0;
  const infected = looks.findLast(({ found }) => found.infected !== undefined)?.found.infected === true;
  const pusNear = pus && (near || lesion.site === 'coronet');
  const stillPus = pus && pusDays >= noticeLimit('pus-after-opening', 'after');
  const raw = isRaw(now) && before !== undefined && isRaw(before);
  return [
    judge('pus-near-coronet', pusNear, { top: topMm ?? '' }, near ? 'tract' : 'coronet'),
    judge('new-foul', code === 'IP' && now.found.state === 'present'),
    judge('necrosis', signs.includes('necrosis') || (code === 'TN' && !healed)),
    judge('infected', infected && !healed),
    judge('raw-two-visits', raw, { since: before?.date ?? '', day: now.date }),
    judge('pus-after-opening', stillPus, { since: opened ?? '', days: pusDays }),
  ];
}

function isRaw({ found: { signs = [] } }: Look): boolean {
  return signs.includes('proud flesh') || signs.includes('exposed corium');
}

/** The day it was opened: its loose horn first cut back, or else first found open. */
function openedOn(context: NoticeContext, name: string, looks: readonly Look[]): string | undefined {
  const cut = looks.find(({ visit }) => context.animal.visits[visit]?.['cut-back']?.includes(name));
  return (cut ?? looks.find(({ found }) => found.state === 'open'))?.date;
}
