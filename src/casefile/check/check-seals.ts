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
import type { Finding, RecordPath } from '../../problem/problem.js';

/** What is wrong with the seals of `farm.md`. */
export function checkFarmSeals(seals: FarmSeals, farmSlug: string): Finding[] {
  return [
    ...farmSealsInOrder(seals).flatMap((seal) => wrong(seal, farmSlug) ?? []),
    ...seals.missing.map((one) => missing(one, farmSlug)),
  ];
}

/** What is wrong with the seals of one animal; `named` is FARM/ANIMAL as it is typed. */
export function checkAnimalSeals(seals: AnimalSeals, named: string): Finding[] {
  return [
    ...sealsInOrder(seals).flatMap((seal) => wrong(seal, named) ?? []),
    ...seals.missing.flatMap(({ sealed, inTheOpen }) => (inTheOpen ? [] : missing(sealed, named))),
  ];
}

/** A record as it is spoken of: `the episode since 2026-01-06`. */
export function recordInWords(kind: LedgerKind, content: Content, on: string | undefined): string {
  const values = { name: String(content['name']), file: String(content['file']), day: on ?? '' };
  return messageWords().say(`sealed.${kind}.${on === undefined ? 'undated' : 'dated'}`, values);
}

function wrong(seal: RecordSeal, named: string): Finding | undefined {
  const { last } = seal.sealed ?? {};
  if (!last || (seal.state !== 'differs' && seal.state !== 'gone')) return undefined;
  const { content: now, on } = seal.now;
  const isPicture = seal.kind === 'picture';
  const { sealed: day, number } = last;
  const values = { file: String(now['file']), day, number };
  if (seal.state === 'gone') return refused('seal/picture-missing', [...seal.path, 'file'], values);
  const all = contentDifferences(last.content, now);
  // Bytes that were not read, and a file name that may change, are no difference.
  const first = all.find(
    ({ path: [key] }) => !isPicture || (key !== 'file' && (key !== 'sha512' || now['sha512'] !== undefined)),
  );
  if (isPicture && (first?.path[0] === 'bytes' || first?.path[0] === 'sha512'))
    return refused('seal/picture-differs', [...seal.path, 'file'], values);
  const record = recordInWords(seal.kind, now, on);
  return first
    ? differs(seal, first, { day, number, named, record, count: all.length - 1 })
    : refused('seal/amendment-missing', seal.path, { ...values, record });
}

function refused(id: string, path: RecordPath, values: Values, way?: string): Finding {
  const { message, mend } = messageOf(id, values, way);
  return { id, severity: 'error', path, at: 'value', message, mend };
}

function differs(
  { kind, path }: RecordSeal,
  first: ContentDifference,
  about: Values & { readonly count: number },
): Finding {
  const key = first.path.map((part) => (typeof part === 'number' ? part + 1 : part)).join('.');
  const values = { ...about, key, now: said(first.now), before: said(first.before) };
  // Where the keys of a record's content are in its file.
  const place = kind === 'identity' || kind === 'scales' ? [] : path;
  const { mend } = messageOf('seal/differs', values, kind);
  const way = about.count === 0 ? undefined : 'several';
  return { ...refused('seal/differs', [...place, ...first.path], values, way), mend };
}

const listOf: Partial<Record<LedgerKind, string>> = {
  lesion: 'lesions',
  mark: 'marks',
  episode: 'episodes',
  'gait-round': 'gait-rounds',
  footbath: 'footbath',
  plan: 'plan',
  scales: 'gait-scale',
};

function missing({ first, last }: SealedRecord, named: string): Finding {
  const { kind, content, on, sealed: day, number } = last ?? first;
  const record = recordInWords(kind, content, on);
  return refused('seal/missing', [listOf[kind] ?? 'visits'], { record, day, number, named });
}

function said(value: unknown): string {
  if (value === undefined) return messageWords().say('value.nothing');
  return typeof value === 'string' ? value : JSON.stringify(value);
}
