import { composeCase } from '../book/compose-case.js';
import { bookOf, type BooksOptions, sayPictures } from './books.js';
import { join } from 'node:path';
import { terminal } from '../problem/message.js';
import type { ExitCode } from '../run/exit-code.js';
import type { Effects } from '../run/effects.js';
import { readOneCase } from '../run/find-case.js';

/**
 * Writes one animal's page as a file of its own. Her farm must read without an error, as for its book; all farms teach
 * what to expect of her, so the dates are those of the book.
 */
export async function caseAlone(named: string, options: BooksOptions, effects: Effects): Promise<ExitCode> {
  const one = readOneCase(named, options, effects);
  if ('ended' in one) return one.ended;
  const { run, farm, record } = one;
  const alone = { ...farm, cases: [record] };
  const book = await bookOf(run, alone, options, effects, { compose: composeCase });
  const file = run.write(join(farm.slug, `${record.slug}.html`), book.html);
  run.say(terminal('page.written', { file, farm: farm.farm.farm, animal: record.animal.animal }));
  sayPictures(run, farm.slug, book);
  return run.end({ farm: farm.slug, animal: record.slug, file, bytes: book.bytes });
}
