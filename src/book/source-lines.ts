import { publishedSources, type PublishedSource } from '../reference/sources.js';

/** Every published work and open standard the numbers rest on, one line each, in alphabetical order. */
export function sourceLines(): string[] {
  return Object.values(publishedSources)
    .map(sourceLine)
    .sort((a, b) => (a < b ? -1 : 1));
}

/** @example sourceLine({ authors: 'Laven et al.', year: 2015, doi: '10.3390/ani5030379' }) // → 'Laven et al. 2015. doi 10.3390/ani5030379' */
export function sourceLine({ authors, year, title, journal, doi, note }: PublishedSource): string {
  const dated = (text: string | undefined) => (text && year ? `${text} ${year}` : text);
  const names = authors ? [dated(authors), title] : [dated(title)];
  return [...names, journal, doi && `doi ${doi}`, note?.replace(/\.$/, '')]
    .filter((part) => part !== undefined && part !== '')
    .join('. ');
}
