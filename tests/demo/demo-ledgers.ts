import { nodeCaseFiles } from '../../src/casefile/node-case-files.js';
import { pictureBytes } from '../../src/casefile/look-at-picture.js';
import { entryLine } from '../../src/ledger/ledger-entry.js';
import { newEntries } from '../../src/ledger/new-entries.js';
import { emptyLedger, type Ledger } from '../../src/ledger/read-ledger.js';
import { sealsOfFarm } from '../../src/ledger/seals-of-farm.js';
import type { Animal } from '../../src/record/animal.js';
import { addDays, type CalendarDay } from '../../src/record/calendar-day.js';
import type { Farm } from '../../src/record/farm.js';
import type { FarmRecord } from '../../src/record/practice.js';

export const demoDay = '2026-06-16';

/** Visits of the demo that were written down late, by days after; the others were sealed within three days. */
const late: Readonly<Record<string, number>> = {
  'quernholt/2117/2026-03-31': 12,
  'harrowmere/412/2025-12-02': 10,
};

/** The day an invented visit was sealed: the evening of the visit, or up to three days later. */
function sealDay(farm: string, animal: string, date: CalendarDay): CalendarDay {
  const lag = late[`${farm}/${animal}/${date}`] ?? (Number(date.slice(8)) + Number(animal.slice(-2))) % 4;
  const day = addDays(date, lag);
  return day > demoDay ? demoDay : day;
}

/** A farm's ledger as a program would have left it that sealed each record when it was written. */
export function demoLedger({ slug, farm, cases }: FarmRecord): string {
  const days = new Set([
    ...cases.flatMap((one) => one.animal.visits.map(({ date }) => sealDay(slug, one.slug, date))),
    ...(farm['gait-rounds'] ?? []).map(({ date }) => date),
    ...(farm.footbath ?? []).flatMap(({ from, to }) =>
      [from, to].flatMap((day) => (day && day <= demoDay ? day : [])),
    ),
    ...(farm.plan ? [farm.plan.date] : []),
    ...cases.flatMap(({ animal }) => (animal.episodes ?? []).flatMap(({ ended }) => ended ?? [])),
    demoDay,
  ]);
  const picture = pictureBytes(nodeCaseFiles, `cases/${slug}`, 'hashed');
  let ledger: Ledger = emptyLedger;
  for (const day of [...days].toSorted()) {
    const animals = cases.flatMap((one) => {
      const animal = animalOn(one.animal, day, (date) => sealDay(slug, one.slug, date));
      return animal ? [{ slug: one.slug, animal }] : [];
    });
    const seals = sealsOfFarm({ farm: farmOn(farm, day), animals }, ledger, picture);
    const added = newEntries(seals, { sealed: day, farmFile: true, animals: undefined });
    ledger = { entries: [...ledger.entries, ...added], faults: [] };
  }
  return ledger.entries.map((entry) => `${entryLine(entry)}\n`).join('');
}

/** What her file held on a day: the visits written by then, and what they name; undefined before the first. */
function animalOn(
  animal: Animal,
  day: CalendarDay,
  sealedOn: (date: CalendarDay) => CalendarDay,
): Animal | undefined {
  const { lesions, marks, episodes, calvings, visits, ...identity } = animal;
  const dried = identity['dried-off'];
  const written = visits.filter(({ date }) => sealedOn(date) <= day);
  if (written.length === 0) return undefined;
  const named = new Set(written.flatMap(({ found = {} }) => Object.keys(found)));
  const isNamed = ([name]: readonly [string, unknown]): boolean => day === demoDay || named.has(name);
  const known = episodes?.filter((one) => (one['lame-since'] ?? '') <= day);
  return {
    ...identity,
    ...(calvings ? { calvings: calvings.filter((one) => one <= day) } : {}),
    ...(dried ? { 'dried-off': dried.filter((one) => one <= day) } : {}),
    ...(known
      ? {
          episodes: known.map(({ ended, result, ...open }) =>
            ended !== undefined && ended <= day ? { ...open, ended, ...(result ? { result } : {}) } : open,
          ),
        }
      : {}),
    lesions: Object.fromEntries(Object.entries(lesions).filter(isNamed)),
    ...(marks ? { marks: Object.fromEntries(Object.entries(marks).filter(isNamed)) } : {}),
    visits: written,
  };
}

function farmOn(farm: Farm, day: CalendarDay): Farm {
  const { 'gait-rounds': rounds, footbath, plan, ...rest } = farm;
  return {
    ...rest,
    ...(rounds ? { 'gait-rounds': rounds.filter(({ date }) => date <= day) } : {}),
    ...(footbath
      ? {
          footbath: footbath
            .filter(({ from = '' }) => from <= day)
            .map(({ to, ...one }) => (to !== undefined && to <= day ? { ...one, to } : one)),
        }
      : {}),
    ...(plan && plan.date <= day ? { plan } : {}),
  };
}
