import { beforeAll, expect, test } from 'vitest';
import { pictureFitter, type PictureWanted } from '../../src/picture/fit-pictures.js';
import { preparePicture } from '../../src/picture/prepare-picture.js';
import { pictureNumbers } from '../../src/reference/numbers.js';
import { roughPicture } from './made-up-pictures.js';

const { steps } = pictureNumbers;
const wanted: readonly PictureWanted[] = [
  { file: 'new.jpg', day: '2026-05-26', large: true },
  { file: 'old.jpg', day: '2026-01-06', large: true },
  { file: 'between.jpg', day: '2026-03-03', large: false },
  { file: 'damaged.jpg', day: '2026-03-03', large: false },
  { file: 'gone.jpg', day: '2026-03-03', large: false },
];
const files = new Map<string, Uint8Array>();
let reads: string[] = [];
const fitter = () =>
  pictureFitter(wanted, (file) => {
    reads.push(file);
    return files.get(file);
  });

/** Bytes of base64 all pictures take at a step, worked out apart from the fitter. */
async function bytesAt(step: (typeof steps)[number]): Promise<number> {
  const sizes = await Promise.all(
    wanted.map(async ({ file, large }) => {
      const longestPx = large ? step.largePx : step.smallPx;
      const made = await preparePicture(files.get(file) ?? new Uint8Array(), {
        longestPx,
        quality: step.quality,
      });
      return made.kind === 'made' ? Buffer.from(made.jpeg).toString('base64').length : 0;
    }),
  );
  return sizes.reduce((sum, one) => sum + one, 0);
}

beforeAll(async () => {
  for (const [seed, file] of ['new.jpg', 'old.jpg', 'between.jpg'].entries())
    files.set(file, await roughPicture(seed + 1));
  files.set('damaged.jpg', (await roughPicture(9, 300, 225)).subarray(0, 3000));
});

const kinds = (byFile: ReadonlyMap<string, { kind: string }>) =>
  Object.fromEntries([...byFile].map(([file, { kind }]) => [file, kind]));

test('with room enough all are in the largest size, and what cannot be shown is still there by name', async () => {
  const fitted = await fitter()(1e9);
  expect(fitted).toMatchObject({ longestPx: steps[0].largePx, madeSmaller: false });
  expect(kinds(fitted.byFile)).toEqual({
    'new.jpg': 'made',
    'old.jpg': 'made',
    'between.jpg': 'made',
    'damaged.jpg': 'refused',
    'gone.jpg': 'missing',
  });
  expect(fitted.bytes).toBe(await bytesAt(steps[0]));
});

test('the largest size that fits is taken, at its very edge too', async () => {
  const edge = await bytesAt(steps[2]!);
  expect(await fitter()(edge)).toMatchObject({
    longestPx: steps[2]!.largePx,
    madeSmaller: true,
    bytes: edge,
  });
  expect(await fitter()(edge - 1)).toMatchObject({ longestPx: steps[3]!.largePx });
});

test('where the smallest does not fit the oldest go first, and nothing goes without its name', async () => {
  const least = await bytesAt(steps.at(-1)!);
  const fitted = await fitter()(least - 1);
  expect(fitted.bytes).toBeLessThan(least);
  expect(kinds(fitted.byFile)).toMatchObject({
    'old.jpg': 'left-out',
    'between.jpg': 'made',
    'new.jpg': 'made',
  });
  const none = await fitter()(0);
  expect(none.bytes).toBe(0);
  expect(kinds(none.byFile)).toMatchObject({
    'old.jpg': 'left-out',
    'between.jpg': 'left-out',
    'new.jpg': 'left-out',
  });
  expect(none.byFile.size).toBe(wanted.length);
});

test('each picture is read once a size at most, and none again where the size stays', async () => {
  reads = [];
  const fit = fitter();
  await fit(1e9);
  expect(reads).toHaveLength(wanted.length);
  await fit(1e8);
  expect(reads).toHaveLength(wanted.length);
  await fit(0);
  const often = Math.max(...wanted.map(({ file }) => reads.filter((read) => read === file).length));
  // No room at all: the sizes between cannot fit either, and are left out.
  expect(often).toBe(2);
});
