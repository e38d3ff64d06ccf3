import { dayInWords } from '../words/day-in-words.js';
import { phrase } from '../book/fact.js';
import type { Fact } from '../book/page-parts.js';
import type { HandoverOf } from './handover-of.js';
import type { HandoverPage } from './handover-page.js';
import { cut, cutName } from './left-out.js';

/** Who she is, in a line, and how she is to handle. */
export function whoSheIs({
  words,
  work,
  level,
  leftOut,
}: HandoverOf): Pick<HandoverPage, 'identity' | 'handling'> {
  const { animal } = work.record;
  const { handling } = animal;
  return {
    identity: [
      animal.tag,
      animal.electronic,
      animal.breed,
      animal.born && words.say('handover.born', { day: dayInWords(words, animal.born) }),
    ]
      .flatMap((part) => (part === undefined ? [] : cutName(leftOut, part)))
      .join(' · '),
    ...(handling === undefined
      ? {}
      : { handling: words.say('handover.handling', { handling: cut(leftOut, handling, level.characters) }) }),
  };
}

/** For whom the page is, from whom, and whose cow she is. */
export function parties({ words, business, farm: { farm }, leftOut }: HandoverOf): Fact[] {
  const names = (...parts: (string | undefined)[]) =>
    phrase(...parts.map((part) => (part === undefined ? undefined : cutName(leftOut, part))));
  const { vet, contact } = farm;
  return [
    {
      label: words.say('handover.to'),
      value: names(vet?.practice, vet?.name, vet?.phone, vet?.email) || words.say('handover.no-vet'),
    },
    {
      label: words.say('handover.from'),
      value:
        names(business.trimmer, business.business, business.phone, business.email) ||
        words.say('handover.no-trimmer'),
    },
    {
      label: words.say('handover.farm'),
      value: names(farm.farm, farm.holding, farm.address, contact?.name, contact?.phone),
    },
  ];
}
