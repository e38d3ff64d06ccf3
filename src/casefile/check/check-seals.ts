import {
  contentDifferences,
  type ContentDifference,
  type Content,
  type LedgerKind,
} from '../../ledger/ledger-entry.js';
import { farmSealsInOrder, sealsInOrder, type FarmSeals } from '../../ledger/seals-of-farm.js';
import type { RecordSeal } from '../../ledger/record-seal.js';
import type { SealedRecord } from '../../ledger/sealed-records.js';
import type { AnimalSeals } from '../../ledger/seals-of-animal.js';
import { messageOf } from '../../problem/message.js';
import { messageWords, type Values } from '../../reference/words.js';
import type { Finding, InRecord, RecordPath } from '../../problem/problem.js';

/** What is wrong with the seals of `farm.md`. */
export function checkFarmSeals(seals: FarmSeals, farmSlug: string): Finding[] {
  return [
    ...farmSealsInOrder(seals).flatMap((seal) => wrong(seal, farmSlug)),
    ...seals.missing.map((one) => missing(one, farmSlug)),
  ];
}

/** What is wrong with the seals of one animal; `named` is FARM/ANIMAL as it is typed. */
export function checkAnimalSeals(seals: AnimalSeals, named: string): Finding[] {
  return [
    ...sealsInOrder(seals).flatMap((seal) => wrong(seal, named)),
    ...seals.missing.filter(({ inTheOpen }) => !inTheOpen).map(({ sealed }) => missing(sealed, named)),
  ];
}

/** A record as it is spoken of: `the episode since 2026-01-06`. */
export function recordInWords(kind: LedgerKind, content: Content, on: string | undefined): string {
  const values = { name: String(content['name']), file: String(content['file']), day: on ?? '' };
  return messageWords().say(`sealed.${kind}.${on === undefined ? 'undated' : 'dated'}`, values);
}

function wrong(seal: RecordSeal, named: string): Finding[] {
  const { last } = seal.sealed ?? {};
  if (!last || (seal.state !== 'differs' && seal.state !== 'gone')) return [];
  const { content: sealed, number, sealed: day } = last;
  const { content: now } = seal.now;
  const picture: InRecord = { path: [...seal.path, 'file'], at: 'value' };
  const values = { file: String(now['file']), day, number };
  if (seal.state === 'gone') return [refused('seal/picture-missing', picture, values)];
  const all = contentDifferences(sealed, now);
  // Bytes that were not read, and a file name that may change, are no difference.
  const told = all.filter(
    ({ path }) => !(path[0] === 'sha512' && now['sha512'] === undefined) && path[0] !== 'file',
  );
  const [first] = seal.kind === 'picture' ? told : all;
  if (seal.kind === 'picture' && (first?.path[0] === 'bytes' || first?.path[0] === 'sha512'))
    return [refused('seal/picture-differs', picture, values)];
  if (first) return [differs(seal, first, all.length - 1, { day, number, named })];
  const record = recordInWords(seal.kind, now, seal.now.on);
  return [refused('seal/amendment-missing', { path: seal.path, at: 'value' }, { ...values, record })];
}

function refused(id: string, where: InRecord, values: Values, way?: string): Finding {
  const { message, mend } = messageOf(id, values, way);
  return { id, severity: 'error', ...where, message, mend };
}

function differs(
  seal: RecordSeal,
  first: ContentDifference,
  count: number,
  sealed: { readonly day: string; readonly number: number; readonly named: string },
): Finding {
  const values = {
    ...sealed,
    count,
    key: first.path.map((part) => (typeof part === 'number' ? part + 1 : part)).join('.'),
    record: recordInWords(seal.kind, seal.now.content, seal.now.on),
    now: said(first.now),
    before: said(first.before),
  };
  const where: InRecord = { path: [...placeIn(seal), ...first.path], at: 'value' };
  const id = 'seal/differs';
  const { mend } = messageOf(id, values, seal.kind);
  return { ...refused(id, where, values, count === 0 ? undefined : 'several'), mend };
}

/** Where the keys of a record's content stand in its file. */
function placeIn({ kind, path }: RecordSeal): RecordPath {
  return kind === 'identity' || kind === 'scales' ? [] : path;
}

function missing({ first, last }: SealedRecord, named: string): Finding {
  const { kind, content, on, sealed, number } = last ?? first;
  const lists: Partial<Record<LedgerKind, string>> = {
    lesion: 'lesions',
    mark: 'marks',
    episode: 'episodes',
    'gait-round': 'gait-rounds',
    footbath: 'footbath',
    plan: 'plan',
    scales: 'gait-scale',
  };
  const record = recordInWords(kind, content, on);
  const where: InRecord = { path: [lists[kind] ?? 'visits'], at: 'value' };
  return refused('seal/missing', where, { record, day: sealed, number, named });
}

function said(value: unknown): string {
  if (value === undefined) return messageWords().say('value.nothing');
  return typeof value === 'string' ? value : JSON.stringify(value);
}
