import { once } from 'node:events';
import type { AddressInfo } from 'node:net';
import { generate } from 'selfsigned';
import { SMTPServer, type SMTPServerOptions } from 'smtp-server';
import { onTestFinished } from 'vitest';
import type { MailServer } from '../../../src/run/effects.js';

export const login = { user: 'office@quillfen.example', password: 'gate:latch "7" 12#' };

/** A certificate of an authority of its own, made once: for this machine, or for another name. */
const certificates = new Map<string, Promise<{ private: string; cert: string }>>();
export function certificateFor(name: string): Promise<{ private: string; cert: string }> {
  const made =
    certificates.get(name) ??
    generate([{ name: 'commonName', value: name }], {
      keyType: 'ec',
      extensions: [
        { name: 'basicConstraints', cA: true },
        { name: 'subjectAltName', altNames: [{ type: 2, value: name }] },
      ],
    });
  certificates.set(name, made);
  return made;
}

export interface Sunk {
  readonly from: string;
  readonly to: readonly string[];
  readonly bytes: Buffer;
  readonly secure: boolean;
}

/** A mail server on this machine that keeps what it takes, for one test. Whatever it is told to do worse than that, it does. */
export async function mailSink(changed: SMTPServerOptions = {}, name = 'localhost') {
  const { private: key, cert } = await certificateFor(name);
  const taken: Sunk[] = [];
  const attempts: string[] = [];
  const server = new SMTPServer({
    key,
    cert,
    authMethods: ['PLAIN'],
    onAuth: ({ username = '', password = '' }, session, callback) => {
      attempts.push(`login ${session.secure ? 'under TLS' : 'in the open'}`);
      if (username === login.user && password === login.password) callback(null, { user: username });
      else callback(Object.assign(new Error(`5.7.8 wrong: ${password}`), { responseCode: 535 }));
    },
    onData: (stream, session, callback) => {
      const chunks: Buffer[] = [];
      stream.on('data', (chunk: Buffer) => chunks.push(chunk));
      stream.on('end', () => {
        const { mailFrom, rcptTo } = session.envelope;
        taken.push({
          from: mailFrom ? mailFrom.address : '',
          to: rcptTo.map(({ address }) => address),
          bytes: Buffer.concat(chunks),
          secure: session.secure,
        });
        callback(null, 'taken');
      });
    },
    ...changed,
  });
  server.on('error', (error: Error) => attempts.push(error.message));
  server.listen(0, '127.0.0.1');
  await once(server.server, 'listening');
  onTestFinished(() => new Promise<void>((resolve) => server.close(() => resolve())));
  const setting: MailServer = {
    host: 'localhost',
    port: (server.server.address() as AddressInfo).port,
    tls: changed.secure === true ? 'implicit' : 'starttls',
    login,
    trust: cert,
  };
  return { setting, taken, attempts, server };
}
