import type { ArchiveDisk } from '../../archive/archive-disk.js';
import { piecesOf } from '../../archive/bag/bag-files.js';
import type { BagWriter } from '../../archive/bag/bag-writer.js';
import type { Oxum } from '../../archive/bag/bag-form.js';
import { plainNames } from '../../archive/plain-names.js';
import type { CaseFiles } from '../../casefile/case-files.js';
import { ledgerFile } from '../../casefile/read-ledger-file.js';
import type { Head } from '../../ledger/head-of.js';
import type { CalendarDay } from '../../record/calendar-day.js';
import type { Period } from '../../record/period.js';
import type { FarmRecord, Practice } from '../../record/practice.js';
import { archiveText } from '../../reference/archive-text.js';
import { type ArchiveFacts, factsPath, factsText } from './archive-facts.js';
import { farmFiles, type LeftOut } from './farm-files.js';
import { formatText } from './format-text.js';
import { casesIn } from './in-period.js';
import { pictureListText, picturesPath } from './picture-list.js';
import { putPictures } from './put-pictures.js';
import { readmeText } from './readme-text.js';

/** One farm to be archived, and how. */
export interface FarmToArchive {
  readonly practice: Practice;
  readonly farm: FarmRecord;
  readonly today: CalendarDay;
  readonly period: Period | undefined;
  readonly head: Head | undefined;
  readonly keepLocation: boolean;
  readonly clips: boolean;
  readonly contacts: boolean;
  /** The very files the records were read from. */
  readonly files: CaseFiles;
  readonly disk: ArchiveDisk;
  /** The cases folder, as `files` takes it. */
  readonly cases: string;
  readonly version: string;
  /** What is made of the records besides: path under `data/` → content. */
  readonly made: AsyncIterable<readonly [string, string | Uint8Array]>;
}

export interface FarmArchived {
  readonly facts: ArchiveFacts;
  readonly oxum: Oxum;
  readonly pictures: number;
}

/**
 * Puts one farm into a bag: its case files, pictures, ledger, and what is made of them. Nothing of another farm's folder
 * is opened.
 *
 * Checked: tests/cli/archive.test.ts
 */
export async function archiveFarm(bag: BagWriter, asked: FarmToArchive): Promise<FarmArchived> {
  const { farm, files, cases, disk } = asked;
  const folder = `${cases}/${farm.slug}`;
  const to = `cases/${farm.slug}`;
  const paths: string[] = [];
  const put = (path: string, content: string | Uint8Array | Iterable<Uint8Array>): void => {
    paths.push(path);
    bag.add(path, content);
  };

  const chosen = casesIn(farm.cases, asked.period, asked.today);
  if (files.look(`${cases}/business.md`)?.kind === 'file')
    put('cases/business.md', files.read(`${cases}/business.md`));
  for (const name of ['farm', ...chosen.map(({ slug }) => slug)])
    put(`${to}/${name}.md`, files.read(`${folder}/${name}.md`));
  if (asked.head) put(`${to}/${ledgerFile}`, files.read(`${folder}/${ledgerFile}`));

  const { found, leftOut } = farmFiles(files, folder);
  const named = (records: typeof chosen): Set<string> =>
    new Set(
      records.flatMap(({ animal }) =>
        animal.visits.flatMap(({ photos = [] }) => photos.map(({ file }) => file.replaceAll('\\', '/'))),
      ),
    );
  const [wanted, all] = [named(chosen), named(farm.cases)];
  const inPeriod = (path: string): boolean =>
    !asked.period || wanted.has(path) || (!all.has(path) && isDatedIn(path, asked.period));
  const pictures = found.filter(({ path, kind }) => kind !== 'other' && inPeriod(path));
  const names = plainNames(found.map(({ path }) => path));
  const done = putPictures(bag, pictures, {
    disk,
    folder,
    to,
    names,
    keepLocation: asked.keepLocation,
    clips: asked.clips,
  });
  for (const each of done.listed.flatMap(({ archivedAs }) => (archivedAs === '' ? [] : [archivedAs])))
    paths.push(each);

  const plan = farm.farm.plan?.file?.replaceAll('\\', '/');
  const others = found.filter(({ kind }) => kind === 'other');
  for (const { path } of others.filter((one) => one.path === plan)) {
    const file = disk.open(`${folder}/${path}`);
    try {
      put(`${to}/${names.get(path)!}`, piecesOf(file));
    } finally {
      file.close();
    }
  }
  const noRecord: LeftOut[] = others
    .filter(({ path }) => path !== plan)
    .map(({ path }) => ({ file: path, why: 'no case file, picture or film, and not the plan' }));

  for await (const [path, content] of asked.made) put(path, content);
  put('format/case-files.md', formatText());
  if (done.listed.length > 0) put(picturesPath, pictureListText(done.listed));

  const kept = new Set(chosen.map(({ slug }) => slug));
  const facts: ArchiveFacts = {
    archive: 1,
    farm: farm.slug,
    day: asked.today,
    ...(asked.period ? { period: asked.period } : {}),
    location: asked.keepLocation ? 'kept' : 'removed',
    contacts: asked.contacts ? 'kept' : 'removed',
    ...(asked.head ? { head: asked.head } : {}),
    animals: [...kept],
    'other-animals': farm.cases.map(({ slug }) => slug).filter((slug) => !kept.has(slug)),
    'left-out': [...done.leftOut, ...leftOut, ...noRecord],
  };
  put(factsPath, factsText(facts));
  const { business, trimmer } = asked.practice.business;
  const who = business ?? trimmer ?? 'somebody whose name is not on file';
  const oxum = bag.finish(
    {
      sourceOrganization: who,
      externalDescription: `Records of lame cows: ${farm.farm.farm}`,
      externalIdentifier: `${farm.slug} ${asked.today}`,
      softwareAgent: `growdown ${asked.version}`,
      baggingDate: asked.today,
    },
    readmeText({
      facts,
      farm: farm.farm.farm,
      business: who,
      version: asked.version,
      paths,
      cameFromOthers: farm.cases.some(({ animal }) =>
        animal.earlier?.some((one) => one.farm === archiveText['former-farm']),
      ),
    }),
  );
  return { facts, oxum, pictures: done.listed.length - done.leftOut.length };
}

/** Whether a file no record names has a day of the period in its name. */
function isDatedIn(path: string, { from, to }: Period): boolean {
  return (path.match(/\d{4}-\d{2}-\d{2}/g) ?? []).some((day) => day >= from && day <= to);
}
