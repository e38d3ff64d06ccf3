/**
 * What stands under a picture's name, decided by the first bytes of the file and never by its ending.
 *
 * `outside` is any path that leaves the farm's folder: absolute, through `..`, or through a link.
 */
export type PictureLook =
  | { readonly kind: 'jpeg' | 'png' | 'webp' }
  | { readonly kind: 'missing' | 'outside' | 'heic' | 'not-a-picture' };
