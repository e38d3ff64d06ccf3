import { once } from 'node:events';
import { createServer, type AddressInfo, type Server, type Socket } from 'node:net';
import type { SMTPServer } from 'smtp-server';
import { expect, onTestFinished, test } from 'vitest';
import type { Delivery, MailServer } from '../../../src/run/effects.js';
import { nodeMailer } from '../../../src/post/sending/node-mailer.js';
import { certificateFor, login, mailSink } from './mail-sink.js';

const envelope = {
  from: 'office@quillfen.example',
  to: ['nan@quernholt.example'],
  bytes: Buffer.from('Subject: x\r\n\r\n.dot\r\n..two\r\nbody\r\n'),
};

const kindOf = (delivery: Delivery) => (delivery.outcome === 'taken' ? 'taken' : delivery.trouble.kind);

test.each([false, true])('a message is taken byte for byte, under TLS from the start: %s', async (secure) => {
  const { setting, taken } = await mailSink({ secure });
  const delivery = await nodeMailer(setting, envelope);
  expect(delivery).toEqual({ outcome: 'taken', to: ['nan@quernholt.example'], refused: [] });
  expect(taken).toEqual([{ ...envelope, secure: true }]);
});

test('no server of that name', async () => {
  const delivery = await nodeMailer({ ...server(587), host: 'no-such-server.invalid' }, envelope);
  expect(kindOf(delivery)).toBe('unknown-host');
});

test('nothing listens there', async () => {
  const { port } = await listening(() => {}, true);
  expect(kindOf(await nodeMailer(server(port), envelope))).toBe('nothing-listens');
});

test('no TLS offered: neither login nor message is sent', async () => {
  const { setting, taken, attempts } = await mailSink({ hideSTARTTLS: true, disabledCommands: ['STARTTLS'] });
  expect(kindOf(await nodeMailer(setting, envelope))).toBe('no-tls');
  expect({ taken, attempts }).toEqual({ taken: [], attempts: [] });
});

test('TLS from the start is asked of a server that speaks plainly', async () => {
  const { port } = await listening((socket) => socket.write('220 plain\r\n'));
  expect(kindOf(await nodeMailer({ ...server(port), tls: 'implicit' }, envelope))).toBe('no-tls');
});

test.each([false, true])('a certificate nobody trusts, TLS from the start: %s', async (secure) => {
  const { setting, taken, attempts } = await mailSink({ secure });
  const { trust: _, ...untrusting } = setting;
  expect(kindOf(await nodeMailer(untrusting, envelope))).toBe('certificate');
  expect(taken).toEqual([]);
  expect(attempts.filter((one) => one.startsWith('login'))).toEqual([]);
});

test.each([false, true])("another server's certificate, TLS from the start: %s", async (secure) => {
  const { setting, taken } = await mailSink({ secure }, 'mail.elsewhere.example');
  expect(kindOf(await nodeMailer(setting, envelope))).toBe('certificate');
  expect(taken).toEqual([]);
});

test('a setting of the environment that turns checks off changes nothing', async () => {
  const before = process.env['NODE_TLS_REJECT_UNAUTHORIZED'];
  process.env['NODE_TLS_REJECT_UNAUTHORIZED'] = '0';
  try {
    const { setting } = await mailSink();
    const { trust: _, ...untrusting } = setting;
    expect(kindOf(await nodeMailer(untrusting, envelope))).toBe('certificate');
  } finally {
    if (before === undefined) delete process.env['NODE_TLS_REJECT_UNAUTHORIZED'];
    else process.env['NODE_TLS_REJECT_UNAUTHORIZED'] = before;
  }
});

test('a wrong password is reported, and is in no message though the server sends it back', async () => {
  const { setting, taken } = await mailSink();
  const password = 'not-this-one';
  const delivery = await nodeMailer({ ...setting, login: { ...login, password } }, envelope);
  expect(kindOf(delivery)).toBe('login');
  expect(JSON.stringify(delivery)).toContain('5.7.8 wrong: ***');
  expect(JSON.stringify(delivery)).not.toContain(password);
  expect(taken).toEqual([]);
});

test('a login that is wanted and not given', async () => {
  const { setting } = await mailSink();
  const { login: _, ...nobody } = setting;
  expect(kindOf(await nodeMailer(nobody, envelope))).toBe('login-wanted');
});

test('too large by what the server says before, and by what it says after', async () => {
  const large = { ...envelope, bytes: Buffer.alloc(5000, 'a\r\n') };
  const before = await mailSink({ size: 1000 });
  expect(kindOf(await nodeMailer(before.setting, large))).toBe('too-large');
  const after = await mailSink({
    onData: (stream, _, callback) => {
      stream.resume();
      stream.on('end', () =>
        callback(Object.assign(new Error('5.3.4 too big for here'), { responseCode: 552 })),
      );
    },
  });
  expect(kindOf(await nodeMailer(after.setting, large))).toBe('too-large');
  expect([...before.taken, ...after.taken]).toEqual([]);
});

test.each([
  [550, 'address-refused'],
  [553, 'address-refused'],
  [552, 'address-refused'],
  [450, 'later'],
])('a recipient refused with %d', async (responseCode, kind) => {
  const { setting, taken } = await mailSink({
    onRcptTo: (_, __, callback) => callback(Object.assign(new Error('no such box here'), { responseCode })),
  });
  expect(kindOf(await nodeMailer(setting, envelope))).toBe(kind);
  expect(taken).toEqual([]);
});

test('one of two recipients refused: it goes to the other, and both are distinguished', async () => {
  const { setting, taken } = await mailSink({
    onRcptTo: ({ address }, _, callback) =>
      callback(address.startsWith('gil') ? Object.assign(new Error('gone'), { responseCode: 550 }) : null),
  });
  const delivery = await nodeMailer(setting, { ...envelope, to: [...envelope.to, 'gil@quernholt.example'] });
  expect(delivery).toEqual({
    outcome: 'taken',
    to: ['nan@quernholt.example'],
    refused: [{ address: 'gil@quernholt.example', said: expect.stringContaining('550 gone') as string }],
  });
  expect(taken.map(({ to }) => to)).toEqual([['nan@quernholt.example']]);
});

test('a sender refused, a message refused, a server that is busy', async () => {
  const refuse = (responseCode: number) => Object.assign(new Error('not so'), { responseCode });
  const sender = await mailSink({ onMailFrom: (_, __, callback) => callback(refuse(553)) });
  expect(kindOf(await nodeMailer(sender.setting, envelope))).toBe('sender-refused');
  const message = await mailSink({
    onData: (stream, _, callback) => {
      stream.resume();
      stream.on('end', () => callback(refuse(554)));
    },
  });
  expect(kindOf(await nodeMailer(message.setting, envelope))).toBe('message-refused');
  const busy = await mailSink({ onMailFrom: (_, __, callback) => callback(refuse(451)) });
  expect(kindOf(await nodeMailer(busy.setting, envelope))).toBe('later');
});

test('a connection that ends before the message was handed over, and after: only then may it have gone', async () => {
  let sink: Awaited<ReturnType<typeof mailSink>> | undefined;
  const breakOff = () => endAll(sink!.server);
  sink = await mailSink({ onRcptTo: () => breakOff() });
  expect(await nodeMailer(sink.setting, envelope)).toMatchObject({
    outcome: 'failed',
    trouble: { kind: 'cut-off' },
  });
  const half = { ...envelope, bytes: Buffer.alloc(8_000_000, 'half of this\r\n') };
  sink = await mailSink({ onData: (stream) => void stream.once('data', () => breakOff()) });
  expect(await nodeMailer(sink.setting, half)).toMatchObject({
    outcome: 'failed',
    trouble: { kind: 'cut-off' },
  });
  sink = await mailSink({ onData: (stream) => void stream.resume().once('end', () => breakOff()) });
  expect(await nodeMailer(sink.setting, envelope)).toMatchObject({
    outcome: 'unknown',
    trouble: { kind: 'cut-off' },
  });
});

test('a server that says nothing is not waited for without end', async () => {
  const { port } = await listening(() => {});
  const waits = { connectSeconds: 0.2, silentSeconds: 5 };
  expect(await nodeMailer(server(port), envelope, waits)).toMatchObject({
    outcome: 'failed',
    trouble: { kind: 'no-answer' },
  });
  const silent = await mailSink({ onData: (stream) => void stream.resume() });
  expect(await nodeMailer(silent.setting, envelope, { connectSeconds: 5, silentSeconds: 1 })).toMatchObject({
    outcome: 'unknown',
    trouble: { kind: 'cut-off' },
  });
});

/** Ends every connection without a word. */
function endAll(sink: SMTPServer): void {
  for (const one of sink.connections) (one as unknown as Ends)._socket.destroy();
}

interface Ends {
  readonly _socket: Socket;
}

function server(port: number): MailServer {
  return { host: 'localhost', port, tls: 'starttls', login };
}

/** A port of this machine with a server of our own behind it, or with none any more. */
async function listening(onSocket: (socket: Socket) => void, closed = false) {
  const one: Server = createServer((socket) => {
    socket.on('error', () => {});
    onSocket(socket);
  });
  one.listen(0, '127.0.0.1');
  await once(one, 'listening');
  const { port } = one.address() as AddressInfo;
  if (closed) one.close();
  else onTestFinished(() => void one.close());
  return { port };
}

test('the certificate of the sink is its own authority, made for the name', async () => {
  expect((await certificateFor('localhost')).cert).toContain('BEGIN CERTIFICATE');
});
