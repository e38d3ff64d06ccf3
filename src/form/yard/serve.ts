import { terminal } from '../../problem/message.js';
import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http';
import type { Socket } from 'node:net';
import { formPolicy, formStyle } from '../form-style.js';
import { troublePage } from '../said-pages.js';
import { answer } from './answer.js';
import { type YardPlace, yardPlaceOf, limits, rememberedReading, type YardSetting } from './yard-setting.js';
import { renderTemplate } from '../../book/layout-css.js';
import type { FormPage } from '../form-view.js';

/** Who is let in, and where the server listens. */
export interface Serving extends Omit<YardSetting, 'reading'> {
  readonly token: string;
  /** Without the port. */
  readonly hosts: () => readonly string[];
  readonly listenOn: string;
  readonly port: number;
}

export interface Served {
  readonly port: number;
  /** Takes nothing new, finishes what is under way, and resolves when all is done. */
  readonly stop: () => Promise<void>;
}

/**
 * Serves the forms until it is stopped.
 *
 * Error:   the promise fails with the system's error where the port cannot be had
 * Checked: tests/form/yard/
 */
export function serve(serving: Serving): Promise<Served> {
  const server = createServer({
    headersTimeout: limits.head,
    requestTimeout: limits.whole,
    connectionsCheckingInterval: 5000,
    keepAliveTimeout: 5000,
    maxHeaderSize: 16_384,
  });
  server.timeout = limits.silent;
  server.maxConnections = limits.connections;
  const setting = { ...serving, reading: rememberedReading(serving.keeping) };
  let stopping = false;
  const strangers = new Set<Socket>();
  server.on('connection', (socket) => {
    strangers.add(socket);
    socket.once('close', () => strangers.delete(socket));
    const [longest] = strangers;
    if (strangers.size > limits.strangers) longest?.destroy();
  });
  server.on('request', (request, response) => {
    if (stopping) response.setHeader('Connection', 'close');
    const port = portOf(server);
    const hosts = serving
      .hosts()
      .flatMap((host) => (port === 80 ? [host, `${host}:80`] : [`${host}:${port}`]));
    const path = (request.url ?? '').split('?')[0]!;
    const place = yardPlaceOf({ host: request.headers.host, path }, { token: serving.token, hosts });
    if (!place) return refuse(request, response, 404);
    strangers.delete(request.socket);
    void respond(request, response, place, setting);
  });
  return new Promise((resolve, reject) => {
    server.once('error', reject);
    server.listen(serving.port, serving.listenOn, () => {
      server.off('error', reject);
      resolve({
        port: portOf(server),
        stop: () => {
          stopping = true;
          return new Promise((done) => {
            server.close(() => done());
            server.closeIdleConnections();
          });
        },
      });
    });
  });
}

function portOf(server: Server): number {
  const at = server.address();
  return typeof at === 'object' && at ? at.port : 0;
}

async function respond(
  request: IncomingMessage,
  response: ServerResponse,
  place: YardPlace,
  serving: Serving & YardSetting,
): Promise<void> {
  const [, query = ''] = (request.url ?? '').split('?');
  const { origin, host } = request.headers;
  // A page from elsewhere may know the address; a browser says where what it sends was typed.
  if (origin !== undefined && origin.toLowerCase() !== `http://${host?.toLowerCase()}`)
    return refuse(request, response, 403);
  const reads = request.method === 'GET' || request.method === 'HEAD';
  if (!reads && !(request.method === 'POST' && (place.at === 'animal' || place.at === 'new')))
    return refuse(request, response, 405);
  try {
    const answered = await answer(request, place, new URLSearchParams(query), serving);
    if ('to' in answered) {
      response.writeHead(303, { ...always(), Location: answered.to });
      response.end();
      return;
    }
    send(request, response, answered.status, renderForm(answered.page));
  } catch (error) {
    failed(request, response, serving, error);
  }
}

/** One request that fails ends no other: the page says that nothing is kept, the terminal why. */
function failed(
  request: IncomingMessage,
  response: ServerResponse,
  { tell, words }: Serving,
  error: unknown,
): void {
  const why = error instanceof Error ? error : new Error(String(error));
  const { code } = why as NodeJS.ErrnoException;
  const key = code === undefined ? 'yard.own-fault' : 'yard.not-kept';
  tell(`${terminal(key, { why: code === undefined ? (why.stack ?? why.message) : why.message })}\n`);
  try {
    send(request, response, 500, renderForm(troublePage(words, words.say('form.trouble.not-written'))));
  } catch {
    response.destroy();
  }
}

function send(request: IncomingMessage, response: ServerResponse, status: number, html: string): void {
  if (response.headersSent) return;
  // What was not read to its end is not waited for.
  const cut = request.method === 'POST' && !request.complete;
  response.writeHead(status, {
    ...always(),
    ...(cut ? { Connection: 'close' } : {}),
    'Content-Type': 'text/html; charset=utf-8',
    'Content-Length': Buffer.byteLength(html),
  });
  response.end(request.method === 'HEAD' ? undefined : html);
}

/** Tells nothing: not even that forms are served here. */
function refuse(request: IncomingMessage, response: ServerResponse, status: number): void {
  const close = request.method === 'GET' ? {} : { Connection: 'close' };
  response.writeHead(status, { ...always(), ...close, 'Content-Type': 'text/plain; charset=utf-8' });
  response.end('Not found\n');
}

/**
 * `no-cache` and not `no-store`: going back then still shows what was typed.
 */
function always(): Record<string, string> {
  return {
    'Content-Security-Policy': formPolicy(),
    // `no-referrer` would take the origin from what the page itself sends.
    'Referrer-Policy': 'same-origin',
    'X-Content-Type-Options': 'nosniff',
    'X-Frame-Options': 'DENY',
    'Cross-Origin-Resource-Policy': 'same-origin',
    'Cache-Control': 'private, no-cache',
  };
}

/** A form's page data as HTML: plain, whole, with no script. */
export function renderForm(page: FormPage): string {
  return renderTemplate('yard/page.njk', { it: page, style: formStyle() });
}
