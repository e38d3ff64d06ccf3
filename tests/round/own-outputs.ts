import type { GeneratedFarm } from './generated-business.js';

/** Something that is made of one farm and may be handed to it. */
export interface OwnOutput {
  readonly name: string;
  /** The command that makes it, without `growdown`. */
  readonly command: (farm: GeneratedFarm) => readonly string[];
  /** Which of the files the command wrote are this farm's; paths with `/` from the folder it ran in. Without it, all. */
  readonly files?: (path: string, farm: GeneratedFarm) => boolean;
  /** There is none where nothing was done. */
  readonly mayBeNone?: true;
}

const first = ({ slug, animals }: GeneratedFarm) => `${slug}/${animals[0]!.slug}`;

/**
 * What leaves for a farm. Whoever adds an output of a farm adds its line here; it is then checked against every other farm
 * of generated businesses by `no-other-farm.test.ts`.
 */
export const ownOutputs: readonly OwnOutput[] = [
  {
    name: 'ledger',
    command: ({ slug }) => ['seal', '--farm', slug],
    mayBeNone: true,
  },
  {
    name: 'book',
    command: () => ['books'],
    files: (path, { slug }) => path === `books/${slug}.html`,
  },
  {
    name: 'annex',
    command: () => ['books', '--annex'],
    files: (path, { slug }) => path === `books/${slug}-annex.html`,
  },
  { name: 'list for the staff', command: ({ slug }) => ['staff', slug, '--out', 'staff'] },
  { name: 'page of one animal', command: (farm) => ['case', first(farm)] },
  { name: 'yard sheet', command: ({ slug }) => ['sheet', '--all', '--farm', slug] },
  { name: 'form in one file', command: ({ slug }) => ['form', slug] },
  {
    name: 'calendar',
    command: () => ['round', '--ics'],
    files: (path, { slug }) => path === `books/${slug}.ics` || path.startsWith(`cases/${slug}/`),
  },
  { name: 'mail', command: ({ slug }) => ['post', slug], files: (path) => path.endsWith('.eml') },
  { name: 'handover', command: (farm) => ['handover', first(farm), '--mail'] },
  {
    name: 'work done, for a bill',
    command: ({ slug }) => ['costs', '--csv', '--farm', slug],
    mayBeNone: true,
  },
  { name: 'audit pack', command: ({ slug }) => ['audit', '--farm', slug] },
  { name: 'archive', command: ({ slug }) => ['archive', '--no-pdf', '--farm', slug] },
];
