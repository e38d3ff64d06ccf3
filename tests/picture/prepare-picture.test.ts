import { crc32 } from 'node:zlib';
import { gps, parse } from 'exifr';
import sharp from 'sharp';
import { expect, test } from 'vitest';
import { preparePicture } from '../../src/picture/prepare-picture.js';
import { fromAPhone, roughPicture, tellTales } from './made-up-pictures.js';

const size = { longestPx: 200, quality: 80 };

async function made(bytes: Uint8Array, wanted = size) {
  const picture = await preparePicture(bytes, wanted);
  if (picture.kind !== 'made') throw new Error(`refused: ${picture.why}`);
  return picture;
}

/** Which of red, green and blue is strongest at a dot. */
async function colourAt(jpeg: Uint8Array, left: number, top: number): Promise<string> {
  const dot = await sharp(jpeg).extract({ left, top, width: 1, height: 1 }).raw().toBuffer();
  const [red = 0, green = 0, blue = 0] = dot;
  return red > green && red > blue ? 'red' : blue > red && blue > green ? 'blue' : 'neither';
}

test('a picture lying on its side is upright, its corner where it belongs', async () => {
  const picture = await made(await fromAPhone());
  expect([picture.widthPx, picture.heightPx]).toEqual([150, 200]);
  // The corner at the top left of the picture as taken is the top right one of the picture as seen.
  expect(await colourAt(picture.jpeg, 140, 10)).toBe('red');
  expect(await colourAt(picture.jpeg, 10, 10)).toBe('blue');
  expect(await colourAt(picture.jpeg, 140, 190)).toBe('blue');
});

test('place, camera, time, profile and words are gone, by another reader and by a search of the bytes', async () => {
  const taken = await fromAPhone();
  expect(await gps(taken)).toMatchObject({ latitude: 51.5, longitude: -2.25 });
  expect(await parse(taken)).toMatchObject({ Make: 'Odderingworks', Model: 'Yardphone 3' });
  expect(tellTales.filter((tell) => !taken.includes(tell) && tell !== 'GPS')).toEqual([]);

  const jpeg = Buffer.from((await made(taken)).jpeg);
  expect(await parse(jpeg, true)).toBeUndefined();
  expect(await gps(jpeg)).toBeUndefined();
  expect(tellTales.filter((tell) => jpeg.includes(tell))).toEqual([]);
});

test('a small picture is not blown up, a large one fits inside, and the same gives the same bytes', async () => {
  const taken = await roughPicture(1, 600, 450);
  expect(await made(taken, { longestPx: 900, quality: 80 })).toMatchObject({ widthPx: 600, heightPx: 450 });
  const [one, two] = [await made(taken), await made(taken)];
  expect(one).toMatchObject({ widthPx: 200, heightPx: 150 });
  expect(Buffer.from(one.jpeg).equals(two.jpeg)).toBe(true);
});

test('what is clear in a PNG is white, as paper is; WebP is read', async () => {
  const clear = sharp({ create: { width: 20, height: 20, channels: 4, background: '#00000000' } });
  const dot = await sharp((await made(await clear.clone().png().toBuffer())).jpeg)
    .raw()
    .toBuffer();
  expect(dot[0]).toBeGreaterThan(250);
  expect((await made(await clear.webp().toBuffer())).widthPx).toBe(20);
});

/** A PNG that says it is larger than anything a phone takes. */
async function hugePng(): Promise<Buffer> {
  const png = await sharp({ create: { width: 4, height: 4, channels: 3, background: '#fff' } })
    .png()
    .toBuffer();
  png.writeUInt32BE(20_000, 16);
  png.writeUInt32BE(20_000, 20);
  png.writeUInt32BE(crc32(png.subarray(12, 29)), 29);
  return png;
}

const heicStart = Buffer.concat([Buffer.from([0, 0, 0, 24]), Buffer.from('ftypheic'), Buffer.alloc(400)]);
const drawing = Buffer.from('<svg xmlns="http://www.w3.org/2000/svg" width="9" height="9"/>');

test.each([
  ['cut short', async () => (await roughPicture(2)).subarray(0, 20_000), 'broken'],
  ['nothing but a head', async () => (await roughPicture(2, 60, 45)).subarray(0, 60), 'broken'],
  ['empty', async () => Buffer.alloc(0), 'broken'],
  ['HEIC', async () => heicStart, 'other-kind'],
  ['a drawing, which might name other files', async () => drawing, 'other-kind'],
  ['words', async () => Buffer.from('not a picture at all'), 'other-kind'],
  ['400 million dots', hugePng, 'too-large'],
])('%s: refused, never thrown', async (_, bytes, why) => {
  expect(await preparePicture(await bytes(), size)).toEqual({ kind: 'refused', why });
});

test('where the part that reads pictures is not installed, each is refused and the book can still be made', async () => {
  const load = () => Promise.reject(new Error('no such package'));
  expect(await preparePicture(await fromAPhone(), size, load)).toEqual({ kind: 'refused', why: 'no-engine' });
});
