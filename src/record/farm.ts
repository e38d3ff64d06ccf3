import { z } from 'zod';
import { group, may } from './key.js';
import { amended, amount, count, longText, text } from './measures.js';
import { calendarDay, type CalendarDay, compareDays } from './calendar-day.js';
import {
  conditionScales,
  copperForms,
  gaitScales,
  hemispheres,
  housings,
  intervalNames,
  languages,
  papers,
  sendForms,
  staffLanguages,
} from './words.js';

/** Days, by the name of the interval. */
export const intervals = z.partialRecord(z.enum(intervalNames), count);
export type Intervals = z.infer<typeof intervals>;

const herdPeriod = z.strictObject({
  from: calendarDay.optional(),
  cows: count.optional(),
  housing: z.enum(housings).optional(),
});
export type HerdPeriod = z.infer<typeof herdPeriod>;

export const gaitRound = z.strictObject({
  date: calendarDay,
  by: text.optional(),
  scored: count.optional(),
  counts: z.record(z.string().regex(/^\d+$/), count),
  amended,
});
export type GaitRound = z.infer<typeof gaitRound>;

export const footbathPeriod = group({
  from: calendarDay.optional(),
  to: calendarDay.optional(),
  product: text,
  form: z.enum(copperForms).optional(),
  strength: may(amount, { unit: '%' }),
  litres: may(amount, { unit: 'L' }),
  'cows-per-fill': amount.optional(),
  'times-a-week': amount.optional(),
  amended,
});
export type FootbathPeriod = z.infer<typeof footbathPeriod>;

/** The front matter of `farm.md`. */
export const farm = group({
  farm: text,
  holding: text.optional(),
  address: longText.optional(),
  contact: z
    .strictObject({ name: text.optional(), email: text.optional(), phone: text.optional() })
    .optional(),
  vet: z
    .strictObject({
      practice: text.optional(),
      name: text.optional(),
      phone: text.optional(),
      email: text.optional(),
    })
    .optional(),
  herd: z.union([herdPeriod, z.array(herdPeriod)]).optional(),
  hemisphere: z.enum(hemispheres).optional(),
  'gait-scale': z
    .union([
      z.enum(gaitScales),
      z.array(z.strictObject({ from: calendarDay.optional(), scale: z.enum(gaitScales) })),
    ])
    .optional(),
  'condition-scale': z.enum(conditionScales).optional(),
  'milkings-a-day': amount.optional(),
  'milk-litres': may(amount, { unit: 'L' }),
  paper: z.enum(papers).optional(),
  language: z.enum(languages).optional(),
  'staff-languages': z.array(z.enum(staffLanguages)).optional(),
  send: z.enum(sendForms).optional(),
  'next-visit': may(calendarDay, { ahead: true }),
  'every-weeks': may(amount, { unit: 'wk' }),
  /** Infections of the herd that boots and knives may carry on, in the farm's own words: TB, salmonella, ringworm. */
  health: z.array(text).optional(),
  intervals: may(intervals, { unit: 'd' }),
  footbath: z.array(footbathPeriod).optional(),
  'slurry-hectares': may(amount, { unit: 'ha' }),
  'gait-rounds': z.array(gaitRound).optional(),
  plan: z
    .strictObject({ date: calendarDay, with: text.optional(), file: text.optional(), amended })
    .optional(),
  /** Corrections of the scales; gait rounds, footbath periods and the plan keep their own. */
  amended,
});
/** A farm as its `farm.md` declares it, checked; absent keys are unknown. */
export type Farm = z.infer<typeof farm>;

/** What is written of the herd on a day: one map holds always; of a list, the period with the latest `from` up to the day. */
export function herdOn({ herd }: Pick<Farm, 'herd'>, day: CalendarDay): HerdPeriod | undefined {
  if (!Array.isArray(herd)) return herd;
  return herd
    .filter(({ from = day }) => from <= day)
    .sort((a, b) => compareDays(a.from ?? '', b.from ?? ''))
    .at(-1);
}
