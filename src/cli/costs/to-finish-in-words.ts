import { sumAsText } from '../../money/hundredths.js';
import type { Span, ToFinish } from '../../money/to-finish.js';
import { monthsOf, toFinishSentence } from '../../words/compose-money.js';
import type { Words } from '../../words/words.js';
import type { AnimalCosts } from './farm-costs.js';
import { laidOut } from './laid-out.js';

type Range = Extract<ToFinish, { outcome: 'range' }>;

/** What completing each open case would take, as a table with its basis beneath, and of whom it is not given. */
export function toFinishInWords(words: Words, animals: readonly AnimalCosts[], currency: string): string[] {
  const open = animals.flatMap(({ toFinish, ...one }) => (toFinish ? [{ ...one, toFinish }] : []));
  const given = open.flatMap(({ slug, toFinish }) =>
    toFinish.outcome === 'range' ? [{ slug, finish: toFinish }] : [],
  );
  const rows = given.map(({ slug, finish }) => [
    slug,
    finish.pace ? `${finish.pace.everyDays} days` : '-',
    spanOf(finish.visits),
    spanOf(finish.blocks),
    spanOf(monthsOf(finish.days)),
    finish.sum ? spanOf({ low: sumAsText(finish.sum.low), high: sumAsText(finish.sum.high) }) : '-',
  ]);
  const heads = ['to finish', 'a visit every', 'visits', 'blocks', 'months', currency];
  return [
    ...(rows.length > 0 ? laidOut([heads, ...rows], 1).map((line) => `  ${line}`) : []),
    ...(rows.length > 0 ? [words.say('money.finish.basis')] : []),
    ...given.flatMap(({ slug, finish }) => limits(words, slug, finish)),
    ...open.flatMap(({ slug, animal, toFinish }) =>
      toFinish.outcome === 'none' ? [`${slug}: ${toFinishSentence(words, animal, toFinish, currency)}`] : [],
    ),
  ];
}

function limits(words: Words, slug: string, { ifSoundHornFollows, without }: Range): string[] {
  return [
    ...(ifSoundHornFollows ? [`${slug}: ${words.say('money.finish.if-sound')}`] : []),
    ...(without.length > 0
      ? [`${slug}: ${words.say('money.finish.without', { lesions: without.join(', ') })}`]
      : []),
  ];
}

function spanOf(span: Span<number> | Span<string> | undefined): string {
  if (!span) return '-';
  return span.low === span.high ? `${span.low}` : `${span.low} to ${span.high}`;
}
