export type Sharp = (typeof import('sharp'))['default'];

let loaded: Promise<Sharp> | undefined;

/**
 * The library that works on pictures, read when the first picture is there and not before.
 *
 * It reads JPEG, PNG and WebP and nothing else: a drawing format could name other files of this computer.
 */
export function loadSharp(): Promise<Sharp> {
  loaded ??= import('sharp').then(({ default: sharp }) => {
    sharp.block({ operation: ['VipsForeignLoad'] });
    sharp.unblock({
      operation: ['VipsForeignLoadJpegBuffer', 'VipsForeignLoadPngBuffer', 'VipsForeignLoadWebpBuffer'],
    });
    return sharp;
  });
  return loaded;
}
