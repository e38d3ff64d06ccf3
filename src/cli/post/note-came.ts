import { goneBefore } from '../../post/gone-before.js';
import type { FarmRecord } from '../../record/practice.js';
import { addressOfFarm } from './address-of-farm.js';
import { type FarmPosted, orNoLetter } from './post-farm.js';
import { note, postedOnDisk } from './posted-on-disk.js';
import { NoLetter, type PostRun } from './post-run.js';
import { toldTo } from './prepare-letter.js';
import { minute } from './send-letter.js';

/** Notes a letter as sent that may have gone and, as somebody has learned, did come. */
export function noteCame(run: PostRun, farm: FarmRecord): Promise<FarmPosted> {
  const { effects, options } = run;
  const { slug } = farm;
  const memory = postedOnDisk(effects, options.cases, slug);
  return orNoLetter(farm, () =>
    memory.alone(async () => {
      const to = addressOfFarm(farm).map(({ address }) => address);
      const { perhaps } = goneBefore(memory.read(), toldTo(run, farm).content, to);
      if (perhaps === undefined)
        throw new NoLetter(
          'none-in-doubt',
          'of what it tells now, nothing may have gone without being noted; there is nothing to note',
        );
      const { at, day, messageId, content, head } = perhaps;
      if (!options.dryRun)
        note(memory, {
          what: 'sent',
          at,
          day,
          to: perhaps.to,
          messageId,
          content,
          ...(head === undefined ? {} : { head }),
        });
      return {
        farm: slug,
        state: options.dryRun ? 'shown' : 'noted',
        to: perhaps.to,
        messageId,
        content,
        said: [
          `${slug}  ${options.dryRun ? 'would be noted' : 'noted'}: sent to ${perhaps.to.join(', ')} on ${minute(at)}`,
        ],
        warned: [],
      };
    }),
  );
}
