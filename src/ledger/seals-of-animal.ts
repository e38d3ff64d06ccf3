import { fitsSeal } from './fits-seal.js';
import { pairRecords } from './pair-records.js';
import type { RecordSeal, SealState } from './record-seal.js';
import type { Sealable, SealableAnimal, SealablePicture, SealableVisit } from './sealable.js';
import type { SealedAnimal, SealedRecord } from './sealed-records.js';

/** One animal's records, each beside its seal. */
export interface AnimalSeals {
  /** The chain's name for her; undefined where nothing of her is sealed. */
  readonly name: string | undefined;
  readonly identity: RecordSeal;
  readonly lesions: readonly RecordSeal[];
  readonly marks: readonly RecordSeal[];
  readonly episodes: readonly RecordSeal[];
  /** In the order of the visits in her file. */
  readonly visits: readonly VisitSeal[];
  /** Sealed, not withdrawn, and no longer in her file. */
  readonly missing: readonly MissingRecord[];
}

export interface VisitSeal extends RecordSeal<SealableVisit> {
  readonly pictures: readonly RecordSeal<SealablePicture>[];
}

/** A sealed record that is not there any more; of a picture taken out by a correction of its visit, in the open. */
export interface MissingRecord {
  readonly sealed: SealedRecord;
  readonly inTheOpen: boolean;
}

/**
 * Each record of an animal's file beside its seal, and what was sealed and is not there any more.
 *
 * Shape:   her records, what the ledger holds of her → seals in the order of her file, and the missing
 * Checked: tests/ledger/
 */
export function sealsOfAnimal(now: SealableAnimal, known: SealedAnimal | undefined): AnimalSeals {
  const of = (kind: Sealable['kind']): SealedRecord[] =>
    (known?.records ?? []).filter(({ first }) => first.kind === kind);
  const missing: MissingRecord[] = [];
  const miss = (records: Iterable<SealedRecord>, inTheOpen = false): void => {
    for (const sealed of records) missing.push({ sealed, inTheOpen });
  };
  const list = (kind: Sealable['kind'], records: readonly Sealable[]): RecordSeal[] => {
    const paired = pairRecords(of(kind), records);
    miss(paired.missing);
    return records.map((one, at) => recordSeal(one, paired.sealed[at]));
  };
  const byName = (kind: Sealable['kind'], records: readonly Sealable[]): RecordSeal[] => {
    const sealed = new Map(of(kind).map((one) => [one.last?.content['name'], one]));
    const seals = records.map((one) => recordSeal(one, sealed.get(one.content['name'])));
    miss([...sealed.values()].filter((one) => !seals.some((seal) => seal.sealed === one)));
    return seals;
  };
  const pictures = of('picture');
  const paired = pairRecords(of('visit'), now.visits);
  miss(paired.missing);
  const gone = new Set<number | undefined>(paired.missing.map(({ first }) => first.number));
  const visits = now.visits.map((visit, at): VisitSeal => {
    const seal = recordSeal(visit, paired.sealed[at]);
    const left = new Set(pictures.filter(({ first }) => first.visit === seal.sealed?.first.number));
    const seals = visit.pictures.map((one) => {
      const same = pictureLike(one, left);
      if (same) left.delete(same);
      return pictureSeal(one, same, seal.state);
    });
    miss(left, seal.state === 'amended');
    return { ...seal, now: visit, pictures: seals };
  });
  miss(pictures.filter(({ first }) => gone.has(first.visit)));
  return {
    name: known?.name,
    identity: recordSeal(now.identity, of('identity').at(-1)),
    lesions: byName('lesion', now.lesions),
    marks: byName('mark', now.marks),
    episodes: list('episode', now.episodes),
    visits,
    missing,
  };
}

/** One record beside the seal it was found to have, or without. */
export function recordSeal<S extends Sealable>(now: S, sealed: SealedRecord | undefined): RecordSeal<S> {
  const fit = sealed?.last && fitsSeal(now.kind, sealed.last.content, now.content);
  const state = fit === undefined ? 'unsealed' : fit === 'same' ? 'sealed' : fit;
  return { kind: now.kind, path: now.path, now, state, sealed: fit && sealed };
}

/** By its bytes; else by its name, whose bytes then differ. */
function pictureLike(
  { content }: SealablePicture,
  left: ReadonlySet<SealedRecord>,
): SealedRecord | undefined {
  const like = (key: string): SealedRecord | undefined =>
    [...left].find(({ last }) => last?.content[key] === content[key]);
  return content['sha512'] === undefined ? (like('file') ?? like('bytes')) : (like('sha512') ?? like('file'));
}

/** A correction of a visit is one of its pictures too. Bytes that were not read are not checked against anything. */
function pictureSeal(
  now: SealablePicture,
  sealed: SealedRecord | undefined,
  visit: SealState,
): RecordSeal<SealablePicture> {
  if (!sealed?.last) return recordSeal(now, undefined);
  const { sha512, bytes, ...said } = sealed.last.content;
  const was = {
    ...said,
    ...(now.isThere ? { bytes } : {}),
    ...('sha512' in now.content ? { sha512 } : {}),
  };
  const fit = fitsSeal('picture', was, now.content);
  const open = fit === 'differs' && visit === 'amended' ? 'amended' : fit;
  const state = !now.isThere ? 'gone' : open === 'same' ? 'sealed' : open;
  return { kind: now.kind, path: now.path, now, state, sealed };
}
