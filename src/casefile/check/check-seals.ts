import {
  contentDifferences,
  type ContentDifference,
  type Content,
  type LedgerKind,
} from '../../ledger/ledger-entry.js';
import { farmSealsInOrder, sealsInOrder } from '../../ledger/all-seals.js';
import type { RecordSeal } from '../../ledger/record-seal.js';
import type { SealedRecord } from '../../ledger/sealed-records.js';
import type { AnimalSeals } from '../../ledger/seals-of-animal.js';
import type { FarmSeals } from '../../ledger/seals-of-farm.js';
import type { RecordPath } from '../../problem/problem.js';
import type { Finding } from '../finding.js';

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

/** A record as it is spoken of. */
export function recordInWords(kind: LedgerKind, content: Content, on: string | undefined): string {
  const day = on === undefined ? '' : ` of ${on}`;
  switch (kind) {
    case 'identity':
      return 'who she is';
    case 'lesion':
    case 'mark':
      return `${kind} \`${String(content['name'])}\``;
    case 'episode':
      return on === undefined ? 'an episode' : `the episode since ${on}`;
    case 'picture':
      return `the picture ${String(content['file'])}${day}`;
    case 'gait-round':
      return `the gait round${day}`;
    case 'footbath':
      return on === undefined ? 'a footbath period' : `the footbath period from ${on}`;
    case 'scales':
      return 'the scales';
    default:
      return `the ${kind}${day}`;
  }
}

function wrong(seal: RecordSeal, named: string): Finding[] {
  const { last } = seal.sealed ?? {};
  if (!last || (seal.state !== 'differs' && seal.state !== 'gone')) return [];
  const { content: sealed, number, sealed: day } = last;
  const { content: now } = seal.now;
  const inChain = `sealed on ${day} (entry ${number} of the ledger)`;
  if (seal.state === 'gone')
    return [
      {
        id: 'seal/picture-missing',
        severity: 'error',
        path: [...seal.path, 'file'],
        at: 'value',
        message: `${String(now['file'])} is not there, expected the picture ${inChain}`,
        mend: `put the very file back; if it is lost, take its entry out of \`photos\` and write \`${correction}\` in its visit`,
      },
    ];
  const all = contentDifferences(sealed, now);
  // Bytes that were not read, and a file name that may change, are no difference.
  const told = all.filter(
    ({ path }) => !(path[0] === 'sha512' && now['sha512'] === undefined) && path[0] !== 'file',
  );
  const [first] = seal.kind === 'picture' ? told : all;
  if (seal.kind === 'picture' && (first?.path[0] === 'bytes' || first?.path[0] === 'sha512'))
    return [
      {
        id: 'seal/picture-differs',
        severity: 'error',
        path: [...seal.path, 'file'],
        at: 'value',
        message: `${String(now['file'])} is another picture than the one ${inChain}, expected its bytes unchanged`,
        mend: `put the very file back; where another one belongs there, write \`${correction}\` in its visit`,
      },
    ];
  if (!first)
    return [
      {
        id: 'seal/amendment-missing',
        severity: 'error',
        path: seal.path,
        at: 'value',
        message: `a correction of ${recordInWords(seal.kind, now, seal.now.on)} is missing or was changed, expected \`amended\` as ${inChain}`,
        mend: 'put it back under `amended` as it was; a further correction goes behind it',
      },
    ];
  return [differs(seal, first, all.length - 1, inChain, named)];
}

function differs(
  seal: RecordSeal,
  first: ContentDifference,
  more: number,
  inChain: string,
  named: string,
): Finding {
  const others = more === 0 ? '' : `; ${more} more ${more === 1 ? 'value differs' : 'values differ'} there`;
  const key = first.path.map((part) => (typeof part === 'number' ? part + 1 : part)).join('.');
  return {
    id: 'seal/differs',
    severity: 'error',
    path: [...placeIn(seal), ...first.path],
    at: 'value',
    message: `${key} of ${recordInWords(seal.kind, seal.now.content, seal.now.on)} is ${said(first.now)}, expected ${said(first.before)} as ${inChain}${others}`,
    mend: `write ${said(first.before)} again; ${openly(seal, named)}`,
  };
}

/** Where the keys of a record's content stand in its file. */
function placeIn({ kind, path }: RecordSeal): RecordPath {
  return kind === 'identity' || kind === 'scales' ? [] : path;
}

/** As it is written by hand. */
const correction = 'amended: [{ date: DAY, by: NAME, why: REASON }]';

/** The open way to change a sealed record. */
function openly({ kind }: RecordSeal, named: string): string {
  const where = {
    identity: 'at the top of the file',
    scales: 'at the top of the file',
    picture: 'in its visit',
  };
  const place = where[kind as keyof typeof where] ?? 'beside it';
  return `to correct it in the open, write \`${correction}\` ${place}, or change it by \`growdown correct ${named}\` with \`--why\``;
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
  return {
    id: 'seal/missing',
    severity: 'error',
    path: [lists[kind] ?? 'visits'],
    at: 'value',
    message: `${recordInWords(kind, content, on)}, sealed on ${sealed} (entry ${number} of the ledger), is missing, expected it as it was sealed`,
    mend: `put it back: the ledger holds what it said; if it was taken out on purpose, say so in the open: \`growdown seal --taken-out ${named} --why REASON\``,
  };
}

function said(value: unknown): string {
  if (value === undefined) return 'nothing';
  return typeof value === 'string' ? value : JSON.stringify(value);
}
