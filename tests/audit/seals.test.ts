import { expect, test } from 'vitest';
import { ledgerOf, ledgerPath, sealedFiles, sealing } from '../ledger/sealed-files.js';
import { readLedger } from '../../src/ledger/read-ledger.js';
import { packOf, rowsOf, textOf } from './read-pack.js';

const farm = '---\nfarm: Quernholt\ngait-scale: uk-0-3\n---\n';
function animal(top: number, amended = '', more = ''): string {
  return `---
casefile: 1
animal: "2086"
lesions:
  a: { code: WL, foot: LH, claw: outer, site: white line rear, line: heel }
visits:
  - { date: 2026-01-06, by: Orla Venn, kind: first, gait: 2, found: { a: { state: open, top: ${top}, wall: 43, tool: tape } }${amended} }
  - { date: 2026-02-03, by: Orla Venn, kind: recheck, gait: 1, found: { a: { state: open, top: 22, wall: 43, tool: tape } } }
${more}---
`;
}
const files = { 'cases/quernholt/farm.md': farm, 'cases/quernholt/2086.md': animal(17) };
const case2086 = 'cases/quernholt/2086.md';

test('first sealed and the days after: seven are in time, eight are written late', () => {
  // 10 February is 35 days after the one visit and 7 after the other.
  const pack = packOf(sealedFiles(files, '2026-02-10'), 'quernholt', '2026', '2026-03-01');
  expect(
    rowsOf(pack, 'visits').map((row) => [row['date'], row['first_sealed'], row['days_to_seal']]),
  ).toEqual([
    ['2026-01-06', '2026-02-10', '35'],
    ['2026-02-03', '2026-02-10', '7'],
  ]);
  expect(rowsOf(pack, 'written-late')).toEqual([
    { about: '2086', record: 'visit', date: '2026-01-06', first_sealed: '2026-02-10', days_to_seal: '35', seal: 'late' }, // prettier-ignore
  ]);
  expect(rowsOf(pack, 'summary').at(-1)).toMatchObject({ measure: 'in-time', share: '1', share_of: '2' });
  const late = packOf(sealedFiles(files, '2026-02-11'), 'quernholt', '2026', '2026-03-01');
  expect(rowsOf(late, 'written-late')).toHaveLength(2);
  expect(rowsOf(late, 'gaps').map(({ what }) => what)).toContain(
    '2 of 2 sealed records of the period were first sealed more than 7 days after their date.',
  );
  // Of another period neither is reported.
  expect(rowsOf(packOf(sealedFiles(files), 'quernholt', '2025', '2026-03-01'), 'written-late')).toEqual([]);
});

test('a visit written since the last seal is reported as not sealed', () => {
  const more = '  - { date: 2026-02-24, by: Orla Venn, kind: report, gait: 1 }\n';
  const grown = { ...sealedFiles(files), [case2086]: animal(17, '', more) };
  const pack = packOf(grown, 'quernholt', '2026', '2026-03-01');
  expect(rowsOf(pack, 'written-late').map(({ date, seal }) => [date, seal])).toEqual([
    ['2026-01-06', 'late'],
    ['2026-02-24', 'unsealed'],
  ]);
  expect(rowsOf(pack, 'gaps').map(({ what }) => what)).toContain(
    '1 of 3 records of the period are not sealed.',
  );
});

test('a correction made in the open shows what was said before, what is said now, who and why', () => {
  const amended = ', amended: [ { date: 2026-02-20, by: Orla Venn, why: "read off the wrong line" } ]';
  const corrected = { ...sealedFiles(files), [case2086]: animal(19, amended) };
  for (const one of [corrected, sealedFiles(corrected, '2026-02-21')]) {
    const pack = packOf(one, 'quernholt', '2026', '2026-03-01');
    expect(rowsOf(pack, 'amendments')).toEqual([
      {
        about: '2086',
        record: 'visit',
        record_date: '2026-01-06',
        date: '2026-02-20',
        by: 'Orla Venn',
        why: 'read off the wrong line',
        changes: 'a top: 17 before, 19 now',
      },
    ]);
  }
  // Never sealed: the correction counts, and nobody can say what it was before.
  const unsealed = packOf({ ...files, [case2086]: animal(19, amended) }, 'quernholt', '2026', '2026-03-01');
  expect(rowsOf(unsealed, 'amendments')[0]).toMatchObject({ why: 'read off the wrong line', changes: '' });
  expect(rowsOf(packOf(corrected, 'quernholt', '2026-01', '2026-03-01'), 'amendments')).toEqual([]);
});

test('the outside witness: how far the last mail reaches, and a head the ledger no longer holds', () => {
  const sealed = sealedFiles(files);
  const { entries } = readLedger(ledgerOf(sealed));
  const head = entries.at(-1)!.hash;
  const mail = { day: '2026-02-11', to: ['nan@quernholt.example'], head };
  const gapsOf = (witnesses: (typeof mail)[], contents: Readonly<Record<string, unknown>> = sealed) =>
    rowsOf(packOf(contents as typeof sealed, 'quernholt', '2026', '2026-03-01', witnesses), 'gaps').map(
      ({ what }) => what!,
    );
  const none = 'No email with the ledger’s head has gone out since the last record of the period was sealed.';
  expect(gapsOf([mail])).not.toContain(none);
  expect(gapsOf([])).toContain(none);
  expect(gapsOf([{ ...mail, head: entries[0]!.hash }])).toContain(none);
  const pack = packOf(sealed, 'quernholt', '2026', '2026-03-01', [mail]);
  expect(rowsOf(pack, 'witness')).toEqual([
    { date: '2026-02-11', to: 'nan@quernholt.example', head, entries: String(entries.length) },
  ]);
  // The tail cut off: the chain is whole in itself, and the mailed head shows it.
  const cut = { ...sealed, [ledgerPath]: ledgerOf(sealed).split('\n').slice(0, -2).join('\n') };
  expect(gapsOf([mail], cut)).toContain(
    'The ledger no longer holds the head that was emailed on 11 February 2026: it was cut off, or rewritten.',
  );
});

test('the page says how far the ledger goes, and that a seal proves nothing about the time before it', () => {
  const { entries } = readLedger(sealing(files, '2026-02-10').text);
  const text = textOf(packOf(sealedFiles(files), 'quernholt', '2026', '2026-03-01').files['audit.html']!);
  const short = entries
    .at(-1)!
    .hash.slice(0, 16)
    .replaceAll(/(.{4})(?=.)/g, '$1 ');
  expect(text).toContain(`The ledger holds ${entries.length} entries and ends with ${short}.`);
  expect(text).toContain('A seal proves nothing about the time before it.');
});
