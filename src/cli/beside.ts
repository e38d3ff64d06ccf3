import { workerData } from 'node:worker_threads';
import { books } from './books.js';
import type { BooksOptions } from './make-book.js';
import { nodeEffects } from './node-effects.js';

// The same command in a second thread, which says nothing: what it makes is found where it is kept.
const { options, taken } = workerData as {
  readonly options: BooksOptions;
  readonly taken: SharedArrayBuffer;
};
const silent = { print: () => {}, warn: () => {}, terminalWidth: undefined };
await books(options, Object.assign(nodeEffects(), silent, { taken: new Int32Array(taken) }));
