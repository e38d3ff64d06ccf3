import { gps, orientation, parse } from 'exifr';
import * as fc from 'fast-check';
import sharp from 'sharp';
import { describe, expect, test } from 'vitest';
import { withoutLocation } from '../../src/picture/location/without-location.js';
import { fromAPhone, roughPicture } from './made-up-pictures.js';

const says = (bytes: Uint8Array, what: string) => Buffer.from(bytes).includes(what);
const everything = { tiff: true, exif: true, gps: true, xmp: true, iptc: true, ifd1: true } as const;

/** Every dot as it is drawn, upright. */
const dots = (bytes: Uint8Array) => sharp(bytes).autoOrient().raw().toBuffer();

async function phonePictureAs(kind: 'jpeg' | 'png' | 'webp'): Promise<Buffer> {
  const jpeg = await fromAPhone();
  return kind === 'jpeg' ? jpeg : sharp(jpeg).keepMetadata().toFormat(kind).toBuffer();
}

describe.each(['jpeg', 'png', 'webp'] as const)('a %s as a phone writes it', (kind) => {
  test('holds the place before, and afterwards no more than when it was taken and which way up it is', async () => {
    const taken = await phonePictureAs(kind);
    expect(says(taken, 'Odderingworks') || says(taken, 'xmpmeta')).toBe(true);
    const { bytes, changed } = withoutLocation(taken)!;
    expect(changed).toBe(true);
    for (const tale of ['Odderingworks', 'Yardphone', 'GPS', 'xmpmeta', 'Nether Oddering'])
      expect(says(bytes, tale)).toBe(false);
    if (kind !== 'webp') {
      // The independent reader knows no WebP.
      expect(await gps(taken)).toMatchObject({ latitude: 51.5, longitude: -2.25 });
      expect(await gps(bytes)).toBeUndefined();
      expect(await orientation(bytes)).toBe(6);
      expect(Object.keys((await parse(bytes, everything)) as object).sort()).toEqual(
        kind === 'jpeg'
          ? ['DateTimeOriginal', 'Orientation']
          : expect.arrayContaining(['DateTimeOriginal', 'Orientation']),
      );
    }
    const { orientation: turned, exif, xmp, iptc } = await sharp(bytes).metadata();
    expect({ turned, xmp, iptc }).toEqual({ turned: 6 });
    expect(says(exif!, '2026:01:06 10:40:00')).toBe(true);
  });

  test('is dot for dot the same, its colours too, and a second time changes nothing', async () => {
    const taken = await phonePictureAs(kind);
    const { bytes } = withoutLocation(taken)!;
    expect((await dots(bytes)).equals(await dots(taken))).toBe(true);
    expect((await sharp(bytes).metadata()).icc).toEqual((await sharp(taken).metadata()).icc);
    expect(withoutLocation(bytes)).toEqual({ bytes, changed: false });
  });

  test('cut short anywhere is not trusted, or says nothing', async () => {
    const taken = await phonePictureAs(kind);
    for (let length = 0; length < taken.length - 1; length += 97) {
      const made = withoutLocation(taken.subarray(0, length));
      if (made) expect(says(made.bytes, 'GPS') || says(made.bytes, 'Odderingworks')).toBe(false);
    }
  });
});

test('what lies behind the picture, and remarks, are left out', async () => {
  const plain = await roughPicture(1, 80, 60);
  const remark = Buffer.from('\u00ff\u00fe\0\u0010 51.5 N 2.25 W', 'latin1');
  const picture = Buffer.concat([
    plain.subarray(0, 2),
    remark.subarray(0, 18),
    plain.subarray(2),
    await fromAPhone(),
    Buffer.from('MotionPhoto'),
  ]);
  const { bytes } = withoutLocation(picture)!;
  expect(Buffer.from(bytes).equals(plain)).toBe(true);
  const png = await sharp(plain).png().toBuffer();
  expect(Buffer.from(withoutLocation(Buffer.concat([png, picture]))!.bytes).equals(png)).toBe(true);
});

test('a progressive picture and one of many restarts keep every dot', async () => {
  const plain = await roughPicture(2, 200, 150);
  for (const picture of [await sharp(plain).jpeg({ progressive: true }).toBuffer(), plain])
    expect(withoutLocation(picture)).toEqual({ bytes: picture, changed: false });
});

test('another kind of file is not trusted', () => {
  expect(withoutLocation(Buffer.from('GIF89a'))).toBeUndefined();
  expect(withoutLocation(new Uint8Array())).toBeUndefined();
  expect(withoutLocation(Buffer.from('RIFF\u0004\0\0\0WEBP', 'latin1'))).toBeUndefined();
});

test('whatever bytes are changed in it, nothing throws', async () => {
  const pictures = await Promise.all((['jpeg', 'png', 'webp'] as const).map(phonePictureAs));
  fc.assert(
    fc.property(
      fc.nat(2),
      fc.array(fc.tuple(fc.nat(1500), fc.nat(255)), { maxLength: 6 }),
      (which, changes) => {
        const picture = Buffer.from(pictures[which]!);
        for (const [at, byte] of changes) picture[at] = byte;
        withoutLocation(picture);
      },
    ),
    { numRuns: 300 },
  );
});
