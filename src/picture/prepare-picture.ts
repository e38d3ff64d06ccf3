import { pictureNumbers } from '../reference/numbers.js';

type Sharp = (typeof import('sharp'))['default'];

let loaded: Promise<Sharp> | undefined;

/**
 * The library that works on pictures, read when the first picture is there and not before.
 *
 * It reads JPEG, PNG and WebP and nothing else: a drawing format could name other files of this computer.
 */
function loadSharp(): Promise<Sharp> {
  loaded ??= import('sharp').then(({ default: sharp }) => {
    sharp.block({ operation: ['VipsForeignLoad'] });
    sharp.unblock({
      operation: ['VipsForeignLoadJpegBuffer', 'VipsForeignLoadPngBuffer', 'VipsForeignLoadWebpBuffer'],
    });
    return sharp;
  });
  return loaded;
}

/** How large a picture is made: its longest side, and the quality of the JPEG, 1 to 100. */
export interface PictureSize {
  readonly longestPx: number;
  readonly quality: number;
}

/** Why a picture could not be made; the words are under `picture.refused`. */
export const pictureRefusals = ['other-kind', 'too-large', 'broken', 'no-engine'] as const;
export type PictureRefusal = (typeof pictureRefusals)[number];

export type PreparedPicture =
  | {
      readonly kind: 'made';
      readonly jpeg: Uint8Array;
      readonly widthPx: number;
      readonly heightPx: number;
    }
  | { readonly kind: 'refused'; readonly why: PictureRefusal };

/**
 * One picture made ready for a book: turned upright, made smaller where it is larger, and nothing kept but the pixels.
 *
 * Place, camera, time and colour profile are all left behind, because nothing but the pixels is copied. JPEG, since every
 * mail program and printer shows it. A picture cut short is refused whole: half a foot misleads.
 *
 * Shape:   bytes of a JPEG, PNG or WebP → bytes of a JPEG with its size; the same for the same input
 * Error:   never thrown; `refused` says why
 * Checked: tests/picture/prepare-picture.test.ts
 */
export async function preparePicture(
  bytes: Uint8Array,
  { longestPx, quality }: PictureSize,
  load: () => Promise<Sharp> = loadSharp,
): Promise<PreparedPicture> {
  let sharp: Sharp;
  try {
    sharp = await load();
  } catch {
    return { kind: 'refused', why: 'no-engine' };
  }
  try {
    const { data, info } = await sharp(bytes, {
      failOn: 'error',
      limitInputPixels: pictureNumbers.limitMegapixels.value * 1e6,
    })
      .autoOrient()
      .resize({ width: longestPx, height: longestPx, fit: 'inside', withoutEnlargement: true })
      .flatten({ background: '#fff' })
      // Packing harder makes it a tenth smaller and takes three times as long, on every run: not worth the waiting.
      .jpeg({ quality, progressive: true })
      .toBuffer({ resolveWithObject: true });
    return { kind: 'made', jpeg: data, widthPx: info.width, heightPx: info.height };
  } catch (error) {
    return { kind: 'refused', why: reasonOf(error) };
  }
}

function reasonOf(error: unknown): PictureRefusal {
  const message = error instanceof Error ? error.message : '';
  if (message.includes('pixel limit')) return 'too-large';
  return message.includes('unsupported image format') ? 'other-kind' : 'broken';
}
