import { readPractice } from '../../src/casefile/read-practice.js';
import { placeByDate } from '../../src/keep/add-visit.js';
import type { Keeping } from '../../src/keep/change.js';
import type { VisitDraft } from '../../src/keep/visit-draft.js';
import { withoutEmpty } from '../../src/note/same-visit.js';
import type { Animal } from '../../src/record/animal.js';
import { caseFilesInMemory } from '../casefile/case-files-in-memory.js';
import { today } from './made-for.js';

export const farmText =
  '---\nfarm: Quernholt\ngait-scale: uk-0-3\ncondition-scale: uk-1-5\nmilkings-a-day: 2\n---\n';
export const name = 'cases/quernholt/2086.md';

export function inMemory(text: string): Keeping {
  const files = caseFilesInMemory({ 'cases/quernholt/farm.md': farmText, [name]: text });
  return { files, cases: 'cases', today };
}

export function recordIn({ files, cases }: Keeping): Animal | undefined {
  return readPractice(files, cases, { today }).practice.farms[0]?.cases[0]?.animal;
}

/** Texts as a phone sends them, without blanks around; lists and groups that hold nothing are left out. */
export function asSent(draft: VisitDraft): VisitDraft | undefined {
  const { photos: _photos, ...rest } = draft;
  let whole = true;
  const trimmed: unknown = JSON.parse(JSON.stringify(rest), (_, value: unknown) => {
    if (typeof value !== 'string') return value;
    const text = value.replaceAll(/\r\n?/g, '\n').trim();
    whole &&= text !== '';
    return text;
  });
  return whole ? (withoutEmpty(trimmed) as VisitDraft) : undefined;
}

/** As much of a visit, key by key, as the record takes into her file. */
export function asTaken(before: Animal, drawn: VisitDraft): VisitDraft {
  const { date, by, kind, ...more } = drawn;
  const takes = (draft: VisitDraft): boolean => {
    const visits = before.visits.toSpliced(placeByDate(before.visits, draft), 0, draft);
    return recordIn(inMemory(`---\n${JSON.stringify({ ...before, visits })}\n---\n`)) !== undefined;
  };
  const put = (draft: VisitDraft, [key, ...path]: readonly string[], value: unknown): VisitDraft => {
    const group = draft as Readonly<Record<string, unknown>>;
    const own = key ?? '';
    const inner = (group[own] ?? {}) as VisitDraft;
    return { ...draft, [own]: path.length === 0 ? value : put(inner, path, value) };
  };
  let draft: VisitDraft = { date, by, kind };
  const add = (path: readonly string[], value: unknown): void => {
    const longer = put(draft, path, value);
    if (takes(longer)) draft = longer;
    else if (typeof value === 'object' && value !== null && !Array.isArray(value))
      for (const [key, one] of Object.entries(value)) add([...path, key], one);
    else if (Array.isArray(value) && value.length > 1) add(path, value.slice(0, -1));
  };
  for (const [key, value] of Object.entries(more)) add([key], value);
  return draft;
}
