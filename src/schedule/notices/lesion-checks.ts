import { looksAt, type Look } from '../../healing/looks-at-lesion.js';
import { codeOn } from '../../record/code-of-lesion.js';
import { daysBetween } from '../../record/calendar-day.js';
import type { Lesion } from '../../record/lesion.js';
import type { LesionCode, Sign } from '../../record/words.js';
import { noticeLimit } from '../../reference/notices.js';
import type { Judged, NoticeCheck, NoticeContext } from './notice-rule.js';

/** What a lesion's own findings ask for, at the visits that looked at it. */
export const lesionChecks: NoticeCheck = (context, { at, visit }) =>
  Object.entries(context.animal.lesions).flatMap(([name, lesion]): Judged[] => {
    const looks = looksAt(context.animal, name, visit.date).filter((look) => look.visit <= at);
    if (looks.at(-1)?.visit !== at) return [];
    const code = codeOn(name, lesion, context.animal.visits, at);
    const about = { lesion: name, foot: lesion.foot };
    return checksOf(context, name, lesion, code, looks).map((judged) => ({
      ...about,
      ...judged,
      values: { lesion: name, ...judged.values },
    }));
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
  const healed = (now.found.state ?? now.found.stage) === 'healed' || now.found.stage === 'M0';
  const has = (look: Look | undefined, ...wanted: Sign[]) =>
    wanted.some((sign) => look?.found.signs?.includes(sign));
  const pus = has(now, 'pus');
  const topMm = looks.findLast(({ found }) => found.top !== undefined)?.found.top;
  const near = topMm !== undefined && topMm <= noticeLimit('pus-near-coronet', 'top');
  const opened = openedOn(context, name, looks);
  const pusDays = opened ? daysBetween(opened, now.date) : 0;
  const infected = looks.findLast(({ found }) => found.infected !== undefined)?.found.infected === true;
  return [
    {
      rule: 'pus-near-coronet',
      holds: pus && (near || lesion.site === 'coronet'),
      variant: near ? 'tract' : 'coronet',
      values: { top: topMm ?? '' },
    },
    { rule: 'new-foul', holds: code === 'IP' && now.found.state === 'present' },
    { rule: 'necrosis', holds: has(now, 'necrosis') || (code === 'TN' && !healed) },
    { rule: 'infected', holds: infected && !healed },
    {
      rule: 'raw-two-visits',
      holds: has(now, 'proud flesh', 'exposed corium') && has(before, 'proud flesh', 'exposed corium'),
      values: { since: before?.date ?? '', day: now.date },
    },
    {
      rule: 'pus-after-opening',
      holds: pus && pusDays >= noticeLimit('pus-after-opening', 'after'),
      values: { since: opened ?? '', days: pusDays },
    },
  ];
}

/** The day it was opened: its loose horn first cut back, or else first found open. */
function openedOn(context: NoticeContext, name: string, looks: readonly Look[]): string | undefined {
  const cut = looks.find(({ visit }) => context.animal.visits[visit]?.['cut-back']?.includes(name));
  return (cut ?? looks.find(({ found }) => found.state === 'open'))?.date;
}
