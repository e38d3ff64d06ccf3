import { visitFacts } from '../../book/visit-log.js';
import type { Found } from '../../record/visit.js';
import { type Words, told } from '../../reference/words.js';
import { daysToSeal, firstSealed } from '../../ledger/record-seal.js';
import type { AuditFacts } from '../facts/audit-facts.js';
import type { LoggedVisit } from '../facts/run-in-period.js';
import { sealed, type SealedTable, type AuditColumn } from '../table/column.js';
import { animalColumns, lesionWithSite, scoreInWords } from './lame-animals.js';
import type { Side } from '../../schedule/withheld.js';
import { periodInWords } from '../../words/compose-withheld.js';
import type { MedicineUse } from '../facts/medicine-use.js';

/** Every visit of the period: when, by whom, how she walked, what was found and done, pain relief, tools. Lengths stand in the case book. */
export function visitsTable({ visits, seals }: Pick<AuditFacts, 'visits' | 'seals'>): SealedTable {
  const sealOf = ({ record, at }: LoggedVisit) => seals.animals.get(record.slug)?.visits[at];
  return sealed<LoggedVisit>({
    name: 'visits',
    rows: visits,
    columns: [
      ...animalColumns<LoggedVisit>(),
      { name: 'date', kind: 'day', of: ({ visit }) => visit.date },
      { name: 'time', kind: 'text', beneath: true, of: ({ visit }) => visit.at },
      { name: 'by', kind: 'text', whole: true, of: ({ visit }) => told(visit.by) },
      {
        name: 'kind',
        kind: 'word',
        words: 'vocabulary.visit-kind',
        beneath: true,
        of: ({ visit }) => visit.kind,
      },
      {
        name: 'foot_lifted',
        kind: 'word',
        words: 'audit.yes-no',
        beneath: true,
        of: ({ lifted }) => (lifted ? 'yes' : 'no'),
      },
      { name: 'why_missed', kind: 'text', beneath: true, of: ({ visit }) => told(visit.why) },
      {
        name: 'gait_score',
        kind: 'text',
        whole: true,
        of: ({ visit, scale }, words) =>
          visit.gait === undefined ? undefined : scoreInWords(words, visit.gait, scale),
      },
      {
        name: 'lame',
        kind: 'word',
        words: 'audit.yes-no',
        beneath: true,
        of: ({ visit, lame, scale }) =>
          visit.gait === undefined || scale === undefined ? undefined : lame ? 'yes' : 'no',
      },
      { name: 'found', kind: 'lines', blank: true, of: (row, words) => foundLines(words, row) },
      { name: 'done', kind: 'lines', blank: true, of: (row, words) => doneLines(words, row) },
      {
        name: 'pain_relief',
        kind: 'word',
        words: 'vocabulary.pain-relief',
        blank: true,
        of: ({ visit }) => visit['pain-relief'],
      },
      { name: 'recheck_set', kind: 'day', blank: true, of: ({ visit }) => visit.recheck },
      {
        name: 'tools_disinfected',
        kind: 'word',
        blank: true,
        words: 'audit.yes-no',
        of: ({ visit, lifted }) => {
          const said = visit['tools-disinfected'];
          return said === undefined ? (lifted ? 'not-said' : undefined) : said ? 'yes' : 'no';
        },
      },
      {
        name: 'first_sealed',
        kind: 'day',
        beneath: true,
        of: (row) => {
          const seal = sealOf(row);
          return seal && firstSealed(seal);
        },
      },
      {
        name: 'days_to_seal',
        kind: 'number',
        beneath: true,
        of: (row) => {
          const seal = sealOf(row);
          return seal && daysToSeal(seal);
        },
      },
    ],
  });
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
  return sealed<MedicineUse>({
    name: 'medicines',
    rows: uses,
    columns: [
      ...animalColumns<MedicineUse>(),
      { name: 'first_day', kind: 'day', of: ({ first }) => first },
      { name: 'last_day', kind: 'day', of: ({ last }) => last },
      { name: 'product', kind: 'text', of: ({ use }) => told(use.product) },
      { name: 'active', kind: 'text', beneath: true, of: ({ use }) => told(use.active) },
      {
        name: 'class',
        kind: 'word',
        words: 'vocabulary.product-class',
        beneath: true,
        of: ({ use }) => use.class,
      },
      { name: 'batch', kind: 'text', beneath: true, of: ({ use }) => told(use.batch) },
      {
        name: 'used_for',
        kind: 'text',
        blank: true,
        of: ({ use, record, visit }, words) =>
          use.lesion && lesionWithSite(words, record.animal, use.lesion, visit),
      },
      { name: 'amount', kind: 'text', of: ({ use }) => told(use.amount) },
      { name: 'route', kind: 'text', beneath: true, of: ({ use }) => told(use.route) },
      { name: 'given_by', kind: 'text', whole: true, of: ({ use }) => told(use['given-by']) },
      { name: 'prescribed_by', kind: 'text', beneath: true, of: ({ use }) => told(use['prescribed-by']) },
      ...withdrawalColumns('milk'),
      ...withdrawalColumns('meat'),
      {
        name: 'missing',
        kind: 'lines',
        blank: true,
        of: ({ missing }, words) => missing.map((part) => words.say(`audit.part.${part}`)),
      },
    ],
  });
}

/** The period as written of the product; the days of all she was given, or that they are not known. */
function withdrawalColumns(side: Side): AuditColumn<MedicineUse>[] {
  const heldOf = ({ periods, withheld }: MedicineUse) => {
    const held = withheld[side];
    return periods[side].outcome === 'days' && held.outcome === 'withheld' ? held : undefined;
  };
  return [
    {
      name: `${side}_withdrawal`,
      kind: 'text',
      of: ({ periods, withheld }, words) =>
        words.semicolons([
          periodInWords(words, periods[side]),
          periods[side].outcome === 'days' &&
            withheld[side].outcome === 'not-known' &&
            words.say('jobs.withheld.not-known'),
        ]),
    },
    {
      name: `${side}_withheld_through`,
      kind: 'day',
      beneath: true,
      of: (row) => heldOf(row)?.lastWithheld,
    },
    {
      name: `${side}_clear_from`,
      kind: 'day',
      beneath: true,
      of: (row) => heldOf(row)?.firstClear,
    },
  ];
}
