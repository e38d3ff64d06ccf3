import { openHornLesionsOn } from '../../healing/open-horn-lesions.js';
import { soreFeet } from '../../healing/sore-feet.js';
import { isLiftingVisit } from '../../record/lifting.js';
import { feet, type Foot, type Sign } from '../../record/words.js';
import { noticeLimit, type NoticeRuleId } from '../../reference/notices.js';
import type { Judged, NoticeCheck } from './notice-rule.js';
import { feetWithSigns } from './signs-on-foot.js';

const bySign: readonly (readonly [NoticeRuleId, (signs: ReadonlySet<Sign>) => boolean])[] = [
  ['bone', (signs) => signs.has('bone')],
  ['toe-turned-up', (signs) => signs.has('toe turned up')],
  ['not-bearing', (signs) => signs.has('not bearing')],
  [
    'swollen-and-hot',
    (signs) => signs.has('heat') && (signs.has('swollen coronet') || signs.has('swollen heel')),
  ],
];

/** What the signs written of a foot ask for. */
export const signChecks: NoticeCheck = ({ animal, wraps }, { visit }) => {
  const said = feetWithSigns(animal, visit);
  const ofFeet = said.flatMap(([foot, signs]): Judged[] => {
    const swollen = signs.has('swollen above foot');
    const wrapped = wraps.some(
      (wrap) => wrap.foot === foot && wrap.from <= visit.date && (!wrap.end || wrap.end.by >= visit.date),
    );
    return [
      ...bySign.map(([rule, asks]) => ({ rule, foot, holds: asks(signs), values: { foot } })),
      { rule: 'swollen-above-wrap', foot, holds: swollen && wrapped, values: { foot } },
      { rule: 'swollen-above-foot', foot, holds: swollen && !wrapped, values: { foot } },
    ];
  });
  if (said.length === 0) return [];
  const blistered = said.some(([, signs]) => signs.has('blisters') || signs.has('mouth sores'));
  return [...ofFeet, { rule: 'blisters', holds: blistered }];
};

/** Both claws of a foot open: nothing to carry a block. Several feet sore at once. */
export const clawChecks: NoticeCheck = ({ animal }, { visit }) => {
  if (!isLiftingVisit(visit)) return [];
  const open = openHornLesionsOn(animal, visit.date);
  const both = (foot: Foot) =>
    ['inner', 'outer'].every((claw) => open.some((lesion) => lesion.foot === foot && lesion.claw === claw));
  const sore = soreFeet(animal, visit.date).length;
  return [
    ...feet.map((foot): Judged => ({ rule: 'no-sound-claw', foot, holds: both(foot), values: { foot } })),
    { rule: 'several-feet', holds: sore >= noticeLimit('several-feet', 'feet'), values: { feet: sore } },
  ];
};
