import type { ActionBox } from './animal-page-data.js';
import type { PictureDay, PictureSection } from './picture-section.js';
import {
  drawnMm,
  figureMm,
  headingMm,
  heightOf,
  highest,
  type Room,
  stacked,
  sumOf,
  withLead,
} from './fit.js';
import type { Story } from './narrative.js';
import type { BookFigure, TextList } from './page-parts.js';
import { given } from '../record/given.js';

/** One thing to be done, with a box to tick. */
export interface SheetJob {
  /** When, or that it is late. */
  readonly lead: string;
  readonly late: boolean;
  readonly text: string;
}

export interface JobColumn {
  readonly heading: string;
  readonly jobs: readonly SheetJob[];
  /** How many more are overleaf. */
  readonly more?: string;
  /** Where nothing is asked. */
  readonly nothing: string;
}

/** Up to three days of one place: first, turning point, latest; the rest folded on a screen. */
export interface SheetPictures {
  readonly heading: string;
  readonly days: readonly PictureDay[];
  /** 43.5 or 29 mm. */
  readonly height: keyof typeof pictureMm;
  readonly more?: { readonly summary: string; readonly section: PictureSection };
}

/** What finds no room on a front. */
export interface Overleaf {
  readonly pictures?: SheetPictures;
  readonly figures: readonly BookFigure[];
  readonly maps: readonly BookFigure[];
  readonly story?: Story;
}

/** What is on a front, and how high. */
export interface Front {
  /** Foot, claw and lesion of what leads, and how many others are open. */
  readonly what: string;
  readonly identity: string;
  /** Before all else; never left out. */
  readonly banners: readonly ActionBox[];
  /** Two lines, the numbers first. */
  readonly verdict: readonly { readonly lead: string; readonly text: string }[];
  readonly withheld?: { readonly heading: string; readonly milk: string; readonly meat: string };
  readonly columns: readonly JobColumn[];
  readonly pictures?: SheetPictures;
  readonly figures: readonly BookFigure[];
  readonly maps: readonly BookFigure[];
  readonly story?: Story;
  readonly ring?: TextList;
  /** What bears on her alone: calving near, a block in doubt, not fit to travel. */
  readonly cautions?: TextList;
}

/**
 * What yields where a front is short of room, the first first: height of pictures, maps of feet but the first, the
 * story, drawings but the first, pictures, the first drawing.
 */
const kept = [
  { maps: true, story: true, figures: true, pictures: 'tall' },
  { maps: true, story: true, figures: true, pictures: 'low' },
  { maps: false, story: true, figures: true, pictures: 'low' },
  { maps: false, story: false, figures: true, pictures: 'low' },
  { maps: false, story: true, figures: false, pictures: 'low' },
  { maps: false, story: false, figures: false, pictures: 'low' },
  { maps: false, story: true, figures: false },
  { maps: false, story: false, figures: false },
  { maps: false, story: false },
] as const;
/** The wall at most 50, 34 and 26 mm tall. */
const tallest = [190, 130, 100] as const;

/**
 * The front so that it fits its side, the rest overleaf. Banners, verdict, what is withheld, jobs, the first foot map,
 * cautions and when to ring never yield.
 */
export function fitFront(
  { story, pictures, ...rest }: Omit<Front, 'figures' | 'maps'>,
  figuresOf: (tallestPx: number) => readonly BookFigure[],
  room: Room,
): Front & { readonly overleaf: Overleaf } {
  const isMap = ({ id }: BookFigure): boolean => id.includes('-figure-foot-');
  const ways = kept.flatMap((keep) => tallest.map((tallestPx) => ({ keep, tallestPx })));
  const last = { keep: kept.at(-1)!, tallestPx: tallest.at(-1)! };
  const wayOf = ({ keep, tallestPx }: (typeof ways)[number]): Front & { readonly overleaf: Overleaf } => {
    const all = figuresOf(tallestPx);
    const maps = all.filter(isMap);
    const figures = all.filter((figure) => !isMap(figure));
    const height = 'pictures' in keep ? keep.pictures : undefined;
    const stay = 'figures' in keep ? (keep.figures ? figures.length : 1) : 0;
    return {
      ...rest,
      ...(keep.story && story ? { story } : {}),
      ...(height && pictures ? { pictures: { ...pictures, height } } : {}),
      figures: figures.slice(0, stay),
      maps: keep.maps ? maps : maps.slice(0, 1),
      overleaf: {
        maps: keep.maps ? [] : maps.slice(1),
        ...(!keep.story && story ? { story } : {}),
        ...(!height && pictures ? { pictures } : {}),
        figures: figures.slice(stay),
      },
    };
  };
  return wayOf(ways.find((way) => frontMm(wayOf(way), room) <= room.heightMm - slackMm) ?? last);
}

/** A browser sets a side a little taller or lower than the sum. */
const slackMm = 4;
const pictureMm = { tall: 43.5, low: 29 } as const;
/** A foot map in the first column at the foot of a front: 66 of 177 mm. */
const mapScale = 0.87;
/** Border and padding of a banner, mm. */
const bannerMm = 7;
const sizes = {
  gap: 3,
  caption: { pt: 8, lineHeight: 1.3 },
  verdict: { pt: 12, lineHeight: 1.3 },
  job: { pt: 9.5, lineHeight: 1.3 },
  foot: { pt: 8.5, lineHeight: 1.35 },
} as const;

/** Number, place and standing; beside them the place is fitted into what they leave. */
function headMm({ what, identity }: Front, widthMm: number): number {
  const middle = widthMm - 88;
  const lines =
    heightOf(what, middle, { pt: 12, lineHeight: 1.2, weight: 'bold' }) +
    heightOf(identity, middle, { pt: 8, lineHeight: 1.25 });
  return highest([18, lines + 3]);
}

/** Height of a front, mm: its parts one above the other. */
export function frontMm(front: Front, { widthMm }: Room): number {
  const third = widthMm / 3 - 3;
  const bold = { ...sizes.job, weight: 'bold' } as const;
  const banners = front.banners.map(({ heading, items }) => {
    const texts = [heading, ...items.map(({ lead, text }) => (lead ? `${lead} ${text}` : text))];
    return bannerMm + sumOf(texts.map((text) => heightOf(text, widthMm - 14, bold)));
  });
  const columns = front.columns.map(({ jobs, more }) => {
    const each = jobs.map(
      ({ lead, text }) => 1.2 + heightOf(withLead(lead, text, sizes.job), third - 8, sizes.job),
    );
    return sumOf(each) + (more || jobs.length === 0 ? 5 : 0);
  });
  const verdict = front.verdict.map(({ lead, text }) =>
    heightOf(withLead(lead, text, sizes.verdict), widthMm, sizes.verdict),
  );
  const withheld = Object.values(front.withheld ?? {}).join('     ');
  return stacked(
    [
      headMm(front, widthMm),
      ...banners,
      sumOf(verdict),
      front.withheld ? 4 + heightOf(withheld, widthMm - 10, sizes.job) : 0,
      headingMm + highest(columns),
      picturesMm(front.pictures, third),
      ...front.figures.map((figure) => figureMm(figure, widthMm)),
      footMm(front, widthMm),
    ],
    sizes.gap,
  );
}

function picturesMm(pictures: SheetPictures | undefined, third: number): number {
  if (!pictures) return 0;
  const captions = pictures.days.map(({ day, measured, shots }) =>
    heightOf([day, ...measured, shots[0]?.caption ?? ''].join(' · '), third, sizes.caption),
  );
  return headingMm + pictureMm[pictures.height] + 2 + highest(captions);
}

function footMm({ maps, story, ring, cautions }: Front, widthMm: number): number {
  const share = widthMm / 180;
  const map = sumOf(maps.map(({ svg }) => drawnMm(svg) * mapScale + 2));
  // Without a story the column beside the map is theirs.
  const side = (story ? 43 : 63) * share;
  const lists = [cautions, ring].map((list) => {
    if (!list) return 0;
    const items = list.items.map((text) => 0.8 + heightOf(text, side, sizes.foot));
    return 1.5 + heightOf(list.heading, side, { pt: 9.5, lineHeight: 1.25, weight: 'bold' }) + sumOf(items);
  });
  const words = story ? storyMm(story, 63 * share) : 0;
  return highest([map === 0 ? 0 : headingMm + map, stacked(lists, 2), words === 0 ? 0 : headingMm + words]);
}

function storyMm({ html }: Story, widthMm: number): number {
  const blocks = html
    .split(/<\/(?:p|li|h\d|tr|pre)>/)
    .map((block) => block.replaceAll(/<[^>]*>/g, ' ').trim())
    .filter((text) => text !== '');
  return sumOf(blocks.map((text) => 1.5 + heightOf(text, widthMm, sizes.foot)));
}

export function overleafMm({ pictures, figures, maps, story }: Overleaf, { widthMm }: Room): number {
  return stacked(
    [
      picturesMm(pictures, widthMm / 3 - 3),
      ...figures.map((figure) => figureMm(figure, widthMm)),
      story ? headingMm + storyMm(story, widthMm / 2 - 4) / 2 + 6 : 0,
      Math.ceil(maps.length / 2) * (headingMm + highest(maps.map(({ svg }) => drawnMm(svg))) * mapScale + 2),
    ],
    sizes.gap,
  );
}

export const nothing: Overleaf = { figures: [], maps: [] };

/** What of it has room on the back, and what has none: pictures before drawings, drawings before the story and maps of further feet. */
export function fitOverleaf(all: Overleaf, mostMm: number, room: Room): [Overleaf, Overleaf] {
  const parts: Overleaf[] = [
    { ...nothing, ...given({ pictures: all.pictures }) },
    ...all.figures.map((figure) => ({ ...nothing, figures: [figure] })),
    { ...nothing, ...given({ story: all.story }) },
    ...all.maps.map((map) => ({ ...nothing, maps: [map] })),
  ];
  let [fits, rest] = [nothing, nothing];
  for (const part of parts) {
    const more = together(fits, part);
    if (overleafMm(more, room) <= mostMm) fits = more;
    else rest = together(rest, part);
  }
  return [fits, rest];
}

function together(one: Overleaf, other: Overleaf): Overleaf {
  const [figures, maps] = [
    [...one.figures, ...other.figures],
    [...one.maps, ...other.maps],
  ];
  return { ...one, ...other, figures, maps };
}
