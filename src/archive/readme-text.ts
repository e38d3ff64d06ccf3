import { archiveText } from '../reference/archive-text.js';
import { type ArchiveFacts, factsPath } from './archive-facts.js';
import { picturesPath } from './picture-list.js';

/** So wide are the lines of a text that must be readable anywhere. */
const widest = 78;

/** What the text for a stranger says of one archive. */
export interface ReadmeOf {
  readonly facts: ArchiveFacts;
  readonly farm: string;
  readonly business: string;
  readonly version: string;
  /** Paths under `data/` that are in it. */
  readonly paths: readonly string[];
  /** Whether an animal came from another farm. */
  readonly cameFromOthers: boolean;
}

/** The text a stranger finds in an archive: what it is, what lies where, how to check it without this program. */
export function readmeText({ facts, farm, business, version, paths, cameFromOthers }: ReadmeOf): string {
  const { readme } = archiveText;
  const { period, head, animals } = facts;
  const others = facts['other-animals'];
  const values: Record<string, string> = {
    farm,
    business,
    version,
    day: facts.day,
    from: period?.from ?? '',
    to: period?.to ?? '',
    kept: String(animals.length),
    of: String(animals.length + others.length),
    entries: String(head?.entries ?? 0),
    head: head?.hash ?? '',
    'left-out': archiveText['left-out'],
    'former-farm': archiveText['former-farm'],
  };
  const lines = [
    ...readme.what,
    ...(period ? readme.period : []),
    ...readme.places,
    ...placesIn(facts.farm, paths),
    ...readme.check,
    ...(head ? readme.chain : readme['no-chain']),
    ...readme['left-out'],
    ...(facts.location === 'kept' ? readme['location-kept'] : readme['location-removed']),
    ...(facts.contacts === 'removed' ? readme['contacts-removed'] : []),
    ...(cameFromOthers ? readme['former-farms-removed'] : []),
    ...facts['left-out'].map(({ file, why }) => filled(readme['file-left-out'], { file, why })),
  ];
  return `${lines.flatMap((line) => wrapped(filled(line, values))).join('\n')}\n`;
}

function placesIn(farm: string, paths: readonly string[]): string[] {
  const { place } = archiveText.readme;
  const cases = `cases/${farm}/`;
  const places: readonly (readonly [string, string])[] = [
    ['cases/', place.cases],
    [`${cases}photos/`, place.photos],
    [`${cases}renamed/`, place.renamed],
    [`${cases}.growdown/`, place.ledger],
    ['books/', place.books],
    ['audit/', place.audit],
    ['records/', place.records],
    ['format/', place.format],
    [picturesPath, place.pictures],
    [factsPath, place.facts],
  ];
  return places
    .filter(([start]) => paths.some((path) => path.startsWith(start)))
    .flatMap(([start, what]) => [`  data/${start}`, `      ${what}`]);
}

function filled(line: string, values: Readonly<Record<string, string>>): string {
  return line.replaceAll(/\{([a-z-]+)\}/g, (whole, name: string) => values[name] ?? whole);
}

/** Breaks a long line between words; what follows stands as far in as it began. A word longer than a line stays whole. */
function wrapped(line: string): string[] {
  const indent = /^\s*(?:- )?/.exec(line)![0];
  const lines: string[] = [];
  let now = '';
  for (const word of line.slice(indent.length).split(' ')) {
    const longer =
      now === '' ? (lines.length === 0 ? indent : ' '.repeat(indent.length)) + word : `${now} ${word}`;
    if (longer.length <= widest || now === '') now = longer;
    else {
      lines.push(now);
      now = ' '.repeat(indent.length) + word;
    }
  }
  return [...lines, now];
}
