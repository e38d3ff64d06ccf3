import { type ArchiveDisk, type Oxum, sha512Of } from '../bag/bag-form.js';
import { piecesOf, withFile } from '../bag/bag-files.js';
import type { BagWriter } from '../bag/bag-writer.js';
import { plainNames } from '../bag/plain-names.js';
import type { CaseFiles } from '../casefile/source-text.js';
import { ledgerFile } from '../casefile/read-ledger-file.js';
import type { Head } from '../ledger/read-ledger.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { Period } from '../record/period.js';
import type { FarmRecord, Practice } from '../record/practice.js';
import { archiveText } from '../reference/study-results.js';
import {
  type ArchiveFacts,
  factsPath,
  factsText,
  casesIn,
  pictureListText,
  picturesPath,
  type PictureListed,
  readmeText,
} from './archive-facts.js';
import { topicNamed } from '../guide/topics.js';
import { withoutLocation } from '../picture/location/without-location.js';
import { lookAtPicture } from '../casefile/look-at-picture.js';
import { terminal } from '../problem/message.js';

/** A file in a farm's folder that is no case file; `path` from that folder, with `/`. */
interface FarmFile {
  readonly path: string;
  readonly kind: 'picture' | 'clip' | 'other';
}

/** What an archive leaves out, and why, for its text. */
interface LeftOut {
  readonly file: string;
  readonly why: string;
}

const deepest = 8;

/** All that lies in a farm's folder besides its case files, sorted; folders and files whose name begins with a full stop are the computer's own. */
function farmFiles(
  files: CaseFiles,
  folder: string,
): { readonly found: readonly FarmFile[]; readonly leftOut: readonly LeftOut[] } {
  const found: FarmFile[] = [];
  const leftOut: LeftOut[] = [];
  const walk = (below: string, depth: number): void => {
    for (const { name, kind } of files.list(below === '' ? folder : `${folder}/${below}`)) {
      const path = below === '' ? name : `${below}/${name}`;
      if (name.startsWith('.') || (below === '' && name.endsWith('.md') && name !== 'README.md')) continue;
      const looks = lookAtPicture(files, folder, path).kind;
      const isPicture = !['missing', 'outside', 'not-a-picture'].includes(looks);
      if (kind === 'folder' && depth < deepest) walk(path, depth + 1);
      else if (kind === 'file' || (kind === 'link' && isPicture))
        found.push({ path, kind: kindOf(path, looks) });
      else leftOut.push({ file: path, why: terminal('archive.not-followed') });
    }
  };
  walk('', 0);
  return { found: found.toSorted((a, b) => (a.path < b.path ? -1 : 1)), leftOut };
}

function kindOf(path: string, looks: string): FarmFile['kind'] {
  if (['jpeg', 'png', 'webp'].includes(looks)) return 'picture';
  return archiveText.clips.some((ending) => path.toLowerCase().endsWith(ending)) ? 'clip' : 'other';
}

/** What putting pictures into an archive needs. */
interface PuttingPictures {
  readonly disk: ArchiveDisk;
  /** The farm's folder on the disk. */
  readonly folder: string;
  /** The farm's folder in the archive, under `data/`. */
  readonly to: string;
  /** What each is called in the archive. */
  readonly names: ReadonlyMap<string, string>;
  readonly keepLocation: boolean;
  /** Films as they are, whatever they tell. */
  readonly clips: boolean;
}

/** Puts pictures and films into the archive, one at a time, without where they were taken unless that is kept. A film goes in as it is or not at all. */
function putPictures(
  bag: BagWriter,
  files: readonly FarmFile[],
  { disk, folder, to, names, keepLocation, clips }: PuttingPictures,
): { readonly listed: readonly PictureListed[]; readonly leftOut: readonly LeftOut[] } {
  const listed: PictureListed[] = [];
  const leftOut: LeftOut[] = [];
  for (const { path, kind } of files)
    withFile(disk, `${folder}/${path}`, (file) => {
      const taken = { file: path, bytes: file.bytes, sha512: sha512Of(piecesOf(file)) };
      const isKept = keepLocation || (clips && kind === 'clip');
      // A film can hide a place among its sound and pictures, where nobody can look for it.
      const made =
        isKept || kind === 'clip' ? undefined : withoutLocation(Buffer.concat([...piecesOf(file)]));
      if (!isKept && !made) {
        listed.push({ ...taken, archivedAs: '', location: 'left out', sha512Archived: '' });
        leftOut.push({ file: path, why: terminal(`archive.unsure.${kind === 'clip' ? 'clip' : 'picture'}`) });
        return;
      }
      const archivedAs = `${to}/${names.get(path)!}`;
      const sha512Archived = bag.add(archivedAs, made?.bytes ?? piecesOf(file));
      const location = isKept ? 'kept' : made?.changed ? 'removed' : 'none found';
      listed.push({ ...taken, archivedAs, location, sha512Archived });
    });
  return { listed, leftOut };
}

/** How case files are written, and how lengths are taken: topics of the program's own guide, without their pictures. */
function formatText(): string {
  return ['case-file', 'measuring', 'keys', 'words']
    .map((name) => {
      const { title, text } = topicNamed(name)!;
      const plain = text
        .replaceAll(/<!--.*?-->\n*|^!\[.*\n\n/gm, '')
        .replaceAll(/\[([^\]]*)\]\([a-z-]+\.md\)/g, '$1');
      return `# ${title}\n\n${plain}\n`;
    })
    .join('\n');
}

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
  for (const { archivedAs } of done.listed) if (archivedAs !== '') paths.push(archivedAs);

  const plan = farm.farm.plan?.file?.replaceAll('\\', '/');
  const others = found.filter(({ kind }) => kind === 'other');
  for (const { path } of others.filter((one) => one.path === plan))
    withFile(disk, `${folder}/${path}`, (file) => put(`${to}/${names.get(path)!}`, piecesOf(file)));
  const noRecord: LeftOut[] = others
    .filter(({ path }) => path !== plan)
    .map(({ path }) => ({ file: path, why: terminal('archive.no-record') }));

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
  const who = business ?? trimmer ?? terminal('archive.nobody');
  const oxum = bag.finish(
    {
      sourceOrganization: who,
      externalDescription: terminal('archive.description', { farm: farm.farm.farm }),
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
