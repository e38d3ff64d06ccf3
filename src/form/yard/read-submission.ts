import type { IncomingMessage } from 'node:http';
import { Busboy, type BusboyHeaders } from '@fastify/busboy';
import { limits } from './yard-setting.js';

/** A form as it came in. */
export interface Submission {
  readonly values: ReadonlyMap<string, readonly string[]>;
  readonly pictures: readonly { readonly name: string; readonly bytes: Uint8Array }[];
  /** Pictures that were too large, and are not among the others. */
  readonly tooLarge: readonly string[];
  /** Answers that were too long, cut. */
  readonly tooLong: readonly string[];
  /** More was sent than is taken: the answers are there, no picture is. */
  readonly overfull: boolean;
}

export type Received =
  | { readonly outcome: 'whole'; readonly submission: Submission }
  | { readonly outcome: 'not whole' | 'far too large' | 'no form' };

/**
 * Reads a form part by part, within the limits. What is over them is read past, not kept in memory, so that the
 * answers still come back with the page that says so.
 */
export function readSubmission(request: IncomingMessage): Promise<Received> {
  const { headers } = request;
  const type = headers['content-type'] ?? '';
  if (!/^multipart\/form-data;/i.test(type)) return Promise.resolve({ outcome: 'no form' });
  const announced = Number(headers['content-length'] ?? 0);
  if (announced > limits.readOn) return Promise.resolve({ outcome: 'far too large' });
  return new Promise((resolve) => {
    const values = new Map<string, string[]>();
    let pictures: { name: string; bytes: Uint8Array }[] = [];
    const tooLarge: string[] = [];
    const tooLong: string[] = [];
    let total = 0;
    let overfull = announced > limits.sending;
    const parser = parserOf(headers);
    if (!parser) return resolve({ outcome: 'no form' });
    const end = (received: Received): void => {
      request.unpipe(parser);
      resolve(received);
    };
    parser.on('field', (name, value, _nameCut, valueCut) => {
      values.set(name, [...(values.get(name) ?? []), value]);
      if (valueCut) tooLong.push(name);
    });
    parser.on('file', (name, stream) => {
      const chunks: Buffer[] = [];
      stream.on('data', (chunk: Buffer) => {
        if (!overfull) chunks.push(chunk);
      });
      // Not heard, it would end the server.
      stream.on('error', () => end({ outcome: 'not whole' }));
      stream.on('end', () => {
        if (stream.truncated) tooLarge.push(name);
        else if (chunks.length > 0) pictures.push({ name, bytes: Buffer.concat(chunks) });
      });
    });
    const tooMany = (): void => void (overfull = true);
    parser.on('partsLimit', tooMany);
    parser.on('filesLimit', tooMany);
    parser.on('fieldsLimit', tooMany);
    parser.on('error', () => end({ outcome: 'not whole' }));
    parser.on('finish', () => {
      if (overfull) pictures = [];
      end({ outcome: 'whole', submission: { values, pictures, tooLarge, tooLong, overfull } });
    });
    request.on('data', (chunk: Buffer) => {
      total += chunk.length;
      if (total > limits.sending) overfull = true;
      if (total > limits.readOn) end({ outcome: 'far too large' });
    });
    // A part past the limits, or an end mark too few: the parser waits for what never comes.
    request.on('end', () => setTimeout(() => end({ outcome: 'not whole' }), limits.settle).unref());
    request.on('aborted', () => end({ outcome: 'not whole' }));
    request.on('error', () => end({ outcome: 'not whole' }));
    request.pipe(parser);
  });
}

function parserOf(headers: IncomingMessage['headers']): Busboy | undefined {
  try {
    return new Busboy({
      headers: headers as BusboyHeaders,
      limits: {
        fieldNameSize: 100,
        fieldSize: limits.answer,
        fields: limits.answers,
        fileSize: limits.picture,
        files: limits.pictures,
        parts: limits.answers + limits.pictures,
        headerPairs: 20,
        headerSize: 8192,
      },
    });
  } catch {
    return undefined;
  }
}
