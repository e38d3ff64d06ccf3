import { visitFacts } from '../../book/visit-log.js';
import type { Found } from '../../record/visit.js';
import { type Words, told } from '../../reference/words.js';
import { daysToSeal, firstSealed, type RecordSeal } from '../../ledger/record-seal.js';
import type { AuditFacts } from '../facts/audit-facts.js';
import type { LoggedVisit } from '../facts/run-in-period.js';
import {
  type AuditColumn,
  beneath,
  blank,
  columnsOf,
  sealed,
  type SealedTable,
  whole,
} from '../table/column.js';
import { animalColumns, lesionWithSite, scoreInWords } from './lame-animals.js';
import type { Side } from '../../schedule/withheld.js';
import { periodInWords } from '../../words/compose-withheld.js';
import type { MedicineUse } from '../facts/medicine-use.js';

/** Every visit of the period: when, by whom, how she walked, what was found and done, pain relief, tools. Lengths stand in the case book. */
export function visitsTable({ visits, seals }: Pick<AuditFacts, 'visits' | 'seals'>): SealedTable {
  const { text, day, number, word, lines } = columnsOf<LoggedVisit>();
  const ofSeal =
    <T>(of: (seal: RecordSeal) => T) =>
    ({ record, at }: LoggedVisit): T | undefined => {
      const seal = seals.animals.get(record.slug)?.visits[at];
      return seal && of(seal);
    };
  const tools = ({ visit: { 'tools-disinfected': said }, lifted }: LoggedVisit) =>
    said === undefined ? (lifted ? 'not-said' : undefined) : yesNo(said);
  return sealed('visits', visits, [
    ...animalColumns,
    day('date', ({ visit }) => visit.date),
    text('time', ({ visit }) => visit.at, beneath),
    text('by', ({ visit }) => told(visit.by), whole),
    word('kind', 'vocabulary.visit-kind', ({ visit }) => visit.kind, beneath),
    word('foot_lifted', 'audit.yes-no', ({ lifted }) => yesNo(lifted), beneath),
    text('why_missed', ({ visit }) => told(visit.why), beneath),
    text(
      'gait_score',
      ({ visit: { gait }, scale }, words) =>
        gait === undefined ? undefined : scoreInWords(words, gait, scale),
      whole,
    ),
    word(
      'lame',
      'audit.yes-no',
      ({ visit: { gait }, lame, scale }) =>
        gait === undefined || scale === undefined ? undefined : yesNo(lame),
      beneath,
    ),
    lines('found', (row, words) => foundLines(words, row), blank),
    lines('done', (row, words) => doneLines(words, row), blank),
    word('pain_relief', 'vocabulary.pain-relief', ({ visit }) => visit['pain-relief'], blank),
    day('recheck_set', ({ visit }) => visit.recheck, blank),
    word('tools_disinfected', 'audit.yes-no', tools, blank),
    day('first_sealed', ofSeal(firstSealed), beneath),
    number('days_to_seal', ofSeal(daysToSeal), beneath),
  ]);
}

function yesNo(is: boolean): string {
  return is ? 'yes' : 'no';
}

function foundLines(words: Words, { record: { animal }, at, visit }: LoggedVisit): string[] {
  return Object.entries(visit.found ?? {})
    .filter(([name]) => animal.lesions[name])
    .map(([name, found]) => {
      const lesion = lesionWithSite(words, animal, name, at);
      const state = stateOf(words, found);
      return state === undefined ? lesion : words.say('audit.found', { lesion, state });
    });
}

function stateOf(words: Words, { lifted, state, stage }: Found): string | undefined {
  if (lifted === false) return words.say('key.found.lifted.log.false');
  if (stage !== undefined) return words.say(`vocabulary.stage.${stage}`);
  return state && words.say(`vocabulary.state.${state}`);
}

/** Pain relief has a column of its own, products a table of their own. */
function doneLines(words: Words, { record: { animal }, at, visit }: LoggedVisit): string[] {
  const telling = {
    words,
    animal,
    visit,
    at,
    setting: { gaitScaleOn: () => undefined, conditionScale: undefined, currency: undefined },
  };
  return visitFacts(telling, ['trimmed', 'cut-back', 'blocks', 'wraps']).map(({ label, value }) =>
    words.say('audit.label-value', { label, value }),
  );
}

/** Every product used in the period, with what a medicine's record must hold and what is missing of it. */
export function medicinesTable(uses: readonly MedicineUse[]): SealedTable {
  const { text, day, word, lines } = columnsOf<MedicineUse>();
  return sealed('medicines', uses, [
    ...animalColumns,
    day('first_day', ({ first }) => first),
    day('last_day', ({ last }) => last),
    text('product', ({ use }) => told(use.product)),
    text('active', ({ use }) => told(use.active), beneath),
    word('class', 'vocabulary.product-class', ({ use }) => use.class, beneath),
    text('batch', ({ use }) => told(use.batch), beneath),
    text(
      'used_for',
      ({ use, record, visit }, words) =>
        use.lesion && lesionWithSite(words, record.animal, use.lesion, visit),
      blank,
    ),
    text('amount', ({ use }) => told(use.amount)),
    text('route', ({ use }) => told(use.route), beneath),
    text('given_by', ({ use }) => told(use['given-by']), whole),
    text('prescribed_by', ({ use }) => told(use['prescribed-by']), beneath),
    ...withdrawalColumns('milk'),
    ...withdrawalColumns('meat'),
    lines('missing', ({ missing }, words) => missing.map((part) => words.say(`audit.part.${part}`)), blank),
  ]);
}

/** The period as written of the product; the days of all she was given, or that they are not known. */
function withdrawalColumns(side: Side): AuditColumn<MedicineUse>[] {
  const { text, day } = columnsOf<MedicineUse>();
  const heldOf = ({ periods, withheld }: MedicineUse) => {
    const held = withheld[side];
    return periods[side].outcome === 'days' && held.outcome === 'withheld' ? held : undefined;
  };
  return [
    text(`${side}_withdrawal`, ({ periods, withheld }, words) => {
      const isUnknown = periods[side].outcome === 'days' && withheld[side].outcome === 'not-known';
      return words.semicolons([
        periodInWords(words, periods[side]),
        isUnknown && words.say('jobs.withheld.not-known'),
      ]);
    }),
    day(`${side}_withheld_through`, (row) => heldOf(row)?.lastWithheld, beneath),
    day(`${side}_clear_from`, (row) => heldOf(row)?.firstClear, beneath),
  ];
}
