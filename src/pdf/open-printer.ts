import type { Browser, BrowserContext } from 'playwright-core';

/** How far a browser came before it failed: it did not start, gave no answer in time, or ended before the sheets were there. */
export type PrintingTroubleKind = 'did-not-start' | 'no-answer' | 'ended';

/** A browser that did not print. It is the machine's trouble, not the book's and not this program's. */
export class PrintingTrouble extends Error {
  constructor(
    readonly kind: PrintingTroubleKind,
    readonly browser: string,
    cause?: unknown,
  ) {
    super(`${browser}: ${kind}`, { cause });
  }
}

const node = /(?<!\\)\(node(\d{8})\)/g;

/**
 * A tagged PDF with the nodes of its structure numbered from 1.
 *
 * A browser names table cells and their heads by a number that runs through all it has opened so far, so now and then the
 * same page gets other names. The order of the names stays, since the file's list of them is sorted, and so does their
 * length, since places in the file are counted in bytes.
 *
 * Checked: tests/pdf/nodes-numbered.test.ts
 */
export function nodesNumbered(pdf: Uint8Array): Uint8Array {
  const numbered = Buffer.from(pdf);
  const text = numbered.toString('latin1');
  const found = [...text.matchAll(node)];
  const names = [...new Set(found.map(([, name]) => name!))].sort();
  const numbers = new Map(names.map((name, index) => [name, String(index + 1).padStart(8, '0')]));
  for (const { index, 1: name } of found)
    numbered.write(numbers.get(name!)!, index + '(node'.length, 'latin1');
  return numbered;
}

/** A browser that stands ready to print. */
export interface Printer {
  /** A finished page of HTML as PDF: tagged, with an outline out of its headings, on the paper the page asks for. */
  readonly print: (html: string) => Promise<Uint8Array>;
  readonly close: () => Promise<void>;
}

export interface PrinterOptions {
  /** The browser's program. */
  readonly browser: string;
  /** Flags it needs beyond ours. */
  readonly flags?: readonly string[];
  readonly startMs?: number;
  /** For one book. */
  readonly printMs?: number;
}

/** An address nobody has: the page is handed over there by hand, so that its inner links are links within one page. */
const address = 'http://book.invalid/';

/** Nothing is asked of any network: no first-run page, no look for updates, no sync. */
const quiet = [
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
  '--host-resolver-rules=MAP * ~NOTFOUND',
];

/**
 * Starts a browser for printing. Scripts are off in the page and every request but the page itself is refused: what is
 * printed is the book's own HTML.
 *
 * The browser runs in a process of its own that is ended by force when it does not answer: asked to close, one that
 * hangs would hang this program too.
 *
 * Error:   `PrintingTrouble`; the browser is then gone
 * Checked: tests/pdf/open-printer.test.ts
 */
export async function openPrinter(options: PrinterOptions): Promise<Printer> {
  const { browser: path, flags = [], startMs = 60_000, printMs = 180_000 } = options;
  const { chromium } = await import('playwright-core');
  const server = await chromium
    .launchServer({ executablePath: path, args: [...quiet, ...flags], headless: true, timeout: startMs })
    .catch((error: unknown) => {
      const late = error instanceof Error && error.name === 'TimeoutError';
      throw new PrintingTrouble(late ? 'no-answer' : 'did-not-start', path, error);
    });
  let browser: Browser | undefined;
  const hasEnded = () => {
    const { exitCode, signalCode } = server.process();
    return exitCode !== null || signalCode !== null || browser?.isConnected() === false;
  };
  // A connection breaks a moment before the browser's end is reported.
  const endIsTold = () =>
    new Promise<void>((resolve) => {
      if (hasEnded()) return resolve();
      const timer = setTimeout(resolve, 1000);
      server.process().once('exit', () => {
        clearTimeout(timer);
        resolve();
      });
    });
  const guarded = async <T>(work: Promise<T>, limitMs: number): Promise<T> => {
    try {
      return await withinTime(work, limitMs, () => new PrintingTrouble('no-answer', path));
    } catch (error) {
      if (!(error instanceof PrintingTrouble)) await endIsTold();
      const trouble =
        !(error instanceof PrintingTrouble) && hasEnded() ? new PrintingTrouble('ended', path, error) : error;
      await server.kill();
      throw trouble;
    }
  };
  const connected = await guarded(chromium.connect(server.wsEndpoint()), startMs);
  browser = connected;
  return {
    print: (html) =>
      guarded(
        connected
          .newContext({ javaScriptEnabled: false, serviceWorkers: 'block' })
          .then((context) => printed(context, html, printMs)),
        printMs,
      ),
    async close() {
      await withinTime(server.close(), 5000, () => new PrintingTrouble('no-answer', path)).catch(() =>
        server.kill(),
      );
    },
  };
}

async function printed(context: BrowserContext, html: string, timeout: number): Promise<Uint8Array> {
  await context.route('**/*', (route) =>
    route.request().url() === address
      ? route.fulfill({ contentType: 'text/html; charset=utf-8', body: html })
      : route.abort(),
  );
  const page = await context.newPage();
  await page.goto(address, { timeout });
  const pdf = await page.pdf({ preferCSSPageSize: true, tagged: true, outline: true });
  await context.close();
  return nodesNumbered(pdf);
}

/**
 * A piece of work, or `late()` thrown when it takes longer than the limit, ms. The work itself is not stopped: who
 * calls ends what is doing it.
 */
async function withinTime<T>(work: Promise<T>, limitMs: number, late: () => Error): Promise<T> {
  let timer: NodeJS.Timeout | undefined;
  const limit = new Promise<never>((_, reject) => {
    timer = setTimeout(() => reject(late()), limitMs);
  });
  try {
    return await Promise.race([work, limit]);
  } finally {
    clearTimeout(timer);
  }
}

/**
 * How many pages a PDF says it has: the count of the page tree's root, which the catalogue names.
 *
 * Error:   throws where the file is none a browser writes
 * Checked: tests/pdf/printed-book.test.ts, by another reader
 */
export function countSheets(pdf: Uint8Array): number {
  const text = Buffer.from(pdf.buffer, pdf.byteOffset, pdf.byteLength).toString('latin1');
  const root = /\/Type\s*\/Catalog\b[^]*?\/Pages (\d+) 0 R/.exec(text)?.[1];
  const tree = root && new RegExp(`[\\r\\n]${root} 0 obj\\b[^]*?\\/Count (\\d+)`).exec(text)?.[1];
  if (!tree) throw new Error('a PDF without a count of its pages');
  return Number(tree);
}

/**
 * A PDF that says it was made on the book's own day, not at the moment of printing.
 *
 * The dates a browser writes are replaced by one of the same length, so that every place the file points to stays right.
 *
 * Checked: tests/pdf/printed-book.test.ts
 */
export function datedOn(pdf: Uint8Array, day: string): Uint8Array {
  const dated = Buffer.from(pdf);
  const stamp = Buffer.from(`D:${day.replaceAll('-', '')}000000+00'00'`, 'latin1');
  const text = dated.toString('latin1');
  // Only in the one object that describes the file itself, never in what is printed.
  const info = /\/Info (\d+) 0 R/.exec(text.slice(text.lastIndexOf('trailer')))?.[1];
  const start = info === undefined ? -1 : text.search(new RegExp(`(?<=[\\r\\n])${info} 0 obj\\b`));
  if (start < 0) return dated;
  const object = text.slice(start, text.indexOf('endobj', start));
  for (const { index } of object.matchAll(/D:\d{14}\+00'00'/g)) stamp.copy(dated, start + index);
  return dated;
}
