import type { Attachment } from '../../post/draft-message.js';
import type { FarmRecord } from '../../record/practice.js';
import { mailNumbers } from '../../reference/mail-numbers.js';
import type { PostOptions } from './post-run.js';

/** How large it is, what of it is large, and every way out that is open here. */
export function tooLarge(
  options: Pick<PostOptions, 'attach' | 'openOnly'>,
  { slug, farm }: Pick<FarmRecord, 'slug' | 'farm'>,
  attachments: readonly Attachment[],
  { bytes, maxMb }: { readonly bytes: number; readonly maxMb: number },
): string {
  const mb = (size: number) => `${(size / 1e6).toFixed(1)} MB`;
  const most = mailNumbers.mostMb.value;
  const both = (options.attach ?? farm.send) === 'both';
  const ways = [
    ...(both ? ['`--attach html` or `--attach pdf` sends the book once instead of twice'] : []),
    ...(options.openOnly ? [] : ['`--open-only` leaves closed cases out of the book']),
    ...(bytes <= most * 1e6
      ? [`\`--max-mb ${Math.ceil(bytes / 1e6)}\` sends it as it is, where their mail box takes so much`]
      : []),
    `\`growdown books --farm ${slug}\` writes the book as a file, to hand over another way`,
  ];
  const parts = attachments.map(({ name, content }) => `${name} ${mb(content.length)}`).join(', ');
  return `the message is ${mb(bytes)}, more than ${maxMb} MB: ${parts}, and a third more on the way. Ways out:\n${ways.map((way) => `  ${way}\n`).join('')}`.trimEnd();
}
