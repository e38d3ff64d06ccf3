import sharp from 'sharp';

/** Dots by chance, the same every time for the same seed: a picture that packs as badly as hair and straw do. */
export async function roughPicture(seed: number, width = 1000, height = 750): Promise<Buffer> {
  const cell = 11;
  const [across, down] = [Math.ceil(width / cell), Math.ceil(height / cell)];
  let state = seed * 2_654_435_761 + 1;
  const dots = Buffer.alloc(across * down * 3);
  for (let at = 0; at < dots.length; at += 1) {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    dots[at] = state >>> 24;
  }
  return sharp(dots, { raw: { width: across, height: down, channels: 3 } })
    .resize(width, height, { kernel: 'nearest', fit: 'fill' })
    .jpeg({ quality: 90 })
    .toBuffer();
}

/** A picture as a phone writes it: lying on its side with word of how to turn it, of place, camera and time. */
export async function fromAPhone(): Promise<Buffer> {
  const corner = await sharp({ create: { width: 100, height: 80, channels: 3, background: '#d00000' } })
    .png()
    .toBuffer();
  return sharp({ create: { width: 400, height: 300, channels: 3, background: '#3050c0' } })
    .composite([{ input: corner, left: 0, top: 0 }])
    .withExif({
      IFD0: { Make: 'Odderingworks', Model: 'Yardphone 3' },
      IFD2: { DateTimeOriginal: '2026:01:06 10:40:00' },
      IFD3: {
        GPSLatitudeRef: 'N',
        GPSLatitude: '51/1 30/1 0/1',
        GPSLongitudeRef: 'W',
        GPSLongitude: '2/1 15/1 0/1',
      },
    })
    .withIccProfile('p3')
    .withMetadata({ orientation: 6 })
    .withXmp('<x:xmpmeta xmlns:x="adobe:ns:meta/"><note>Nether Oddering yard</note></x:xmpmeta>')
    .jpeg({ quality: 92 })
    .toBuffer();
}

/** What may tell place or camera, searched for as bytes. */
export const tellTales = [
  'Odderingworks',
  'Yardphone',
  'Exif',
  'GPS',
  '2026:01:06',
  'ICC_PROFILE',
  'xmpmeta',
  'Nether Oddering',
];
