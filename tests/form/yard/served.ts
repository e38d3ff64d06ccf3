import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { randomUUID } from 'node:crypto';
import { request } from 'node:http';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { onTestFinished } from 'vitest';
import { nodeCaseFiles } from '../../../src/casefile/node-case-files.js';
import { nodeDisk } from '../../../src/cli/node-disk.js';
import { serve, type Serving } from '../../../src/form/yard/serve.js';
import { wordsOf } from '../../../src/reference/words.js';
import { animalFile, farmFile } from '../../cli/run-in-folder.js';

export const today = '2026-06-16';
export const token = 'a-token-that-nobody-could-guess-1';

/** A folder with one farm and one cow. */
export function yardFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'growdown-yard-'));
  mkdirSync(join(folder, 'cases/quernholt'), { recursive: true });
  writeFileSync(join(folder, 'cases/business.md'), '---\ntrimmer: Orla Venn\n---\n');
  writeFileSync(join(folder, 'cases/quernholt/farm.md'), farmFile);
  writeFileSync(join(folder, 'cases/quernholt/2086.md'), animalFile('2086'));
  return folder;
}

/** The forms of a folder, served in this process. */
export async function served(changed: Partial<Serving> = {}, folder = yardFolder()) {
  const said: string[] = [];
  const cases = join(folder, 'cases');
  const disk = nodeDisk(folder, nodeCaseFiles);
  const { port, stop } = await serve({
    disk,
    keeping: () => ({ files: nodeCaseFiles, cases, today }),
    words: wordsOf('en-GB'),
    formId: randomUUID,
    tell: (line) => void said.push(line),
    token,
    hosts: () => ['127.0.0.1', 'localhost'],
    listenOn: '127.0.0.1',
    port: 0,
    ...changed,
  });
  onTestFinished(async () => {
    await stop();
    rmSync(folder, { recursive: true, force: true });
  });
  const inbox = (): string => {
    try {
      return readFileSync(join(cases, 'quernholt/.growdown/inbox/visits.jsonl'), 'utf8');
    } catch {
      return '';
    }
  };
  return { folder, cases, port, said, inbox, stop, disk, home: `http://127.0.0.1:${port}/${token}/` };
}

export interface Came {
  readonly status: number;
  readonly headers: Readonly<Record<string, string | string[] | undefined>>;
  readonly text: string;
}

/** One plain request, with any head that `fetch` would not send. */
export function ask(
  url: string,
  {
    method = 'GET',
    headers = {},
    body,
  }: { method?: string; headers?: Record<string, string>; body?: Uint8Array } = {},
): Promise<Came> {
  return new Promise((resolve, reject) => {
    const going = request(url, { method, headers, agent: false }, (response) => {
      const chunks: Buffer[] = [];
      response.on('data', (chunk: Buffer) => chunks.push(chunk));
      response.on('error', reject);
      response.on('end', () =>
        resolve({
          status: response.statusCode ?? 0,
          headers: response.headers,
          text: Buffer.concat(chunks).toString('utf8'),
        }),
      );
    });
    going.on('error', reject);
    going.end(body);
  });
}

type Fields = Readonly<Record<string, string | readonly string[] | Blob>>;

/** A form as a browser packs it. */
export async function packed(fields: Fields): Promise<{ readonly type: string; readonly body: Uint8Array }> {
  const form = new FormData();
  for (const [name, value] of Object.entries(fields))
    if (value instanceof Blob) form.append(name, value, 'IMG_0001.JPG');
    else for (const one of [value].flat()) form.append(name, one);
  const whole = new Response(form);
  const type = whole.headers.get('content-type') ?? '';
  return { type, body: new Uint8Array(await whole.arrayBuffer()) };
}

/** Sends a form as a browser does. */
export async function post(
  url: string,
  fields: Fields,
  more: Readonly<Record<string, string>> = {},
): Promise<Came> {
  const { type, body } = await packed(fields);
  const headers = { 'content-type': type, 'content-length': String(body.length), ...more };
  return ask(url, { method: 'POST', headers, body });
}

/** The least a visit says. */
export function visitFields(
  form: string,
  more: Readonly<Record<string, string>> = {},
): Record<string, string> {
  return {
    form,
    date: '2026-06-16',
    by: 'Orla Venn',
    kind: 'recheck',
    'found.a.state': 'open',
    'found.a.top': '25',
    'found.a.tool': 'tape',
    send: 'send',
    ...more,
  };
}

/** The smallest JPEG there is to speak of: its beginning tells its kind, and that is all that is asked of it here. */
export function picture(size = 400, salt = 0): Blob {
  const bytes = new Uint8Array(size).fill(salt);
  bytes.set([0xff, 0xd8, 0xff, 0xe0]);
  return new Blob([bytes], { type: 'image/jpeg' });
}
