import { randomUUID } from 'node:crypto';
import { connect } from 'node:net';
import { expect, test } from 'vitest';
import { yardPlaceOf } from '../../../src/form/yard/yard-setting.js';
import { ask, post, served, token, visitFields } from './served.js';

const letIn = { token, hosts: ['127.0.0.1:80', 'localhost:80'] };

test('only the whole token lets in, and only to a farm or an animal by a plain name', () => {
  const at = (path: string, host = '127.0.0.1:80') => yardPlaceOf({ host, path }, letIn);
  expect(at(`/${token}/`)).toEqual({ at: 'farms' });
  expect(at(`/${token}/quernholt/`)).toEqual({ at: 'farm', farm: 'quernholt' });
  expect(at(`/${token}/quernholt/2086`)).toEqual({ at: 'animal', farm: 'quernholt', animal: '2086' });
  for (const path of [
    '',
    '/',
    '/x',
    `/${token}`,
    `/${token}x/`,
    `/${token.slice(1)}/`,
    `x/${token}/`,
    `/${token}/../`,
    `/${token}/quernholt`,
    `/${token}/..%2f/2086`,
    `/${token}/quernholt/2086/`,
    `/${token}/Quernholt/`,
  ])
    expect(at(path), path).toBeUndefined();
});

test('a name elsewhere that points here is not let in, nor one without a name', () => {
  for (const host of [
    undefined,
    '',
    'evil.example',
    'evil.example:80',
    '127.0.0.1',
    '127.0.0.1:81',
    '127.0.0.1:80.evil.example',
  ])
    expect(yardPlaceOf({ host, path: `/${token}/` }, letIn), host).toBeUndefined();
  expect(yardPlaceOf({ host: 'LOCALHOST:80', path: `/${token}/` }, letIn)).toEqual({ at: 'farms' });
});

test('whoever is not let in is told nothing, whatever is asked', async () => {
  const { home, port, inbox } = await served();
  const wrong = [
    ask(`http://127.0.0.1:${port}/`),
    ask(home.replace(token, 'b'.repeat(token.length))),
    ask(home, { headers: { host: 'evil.example' } }),
    post(`${home.replace(token, 'x')}quernholt/2086`, visitFields(randomUUID())),
    ask(home, { headers: { host: 'evil.example' }, method: 'POST' }),
  ];
  const said = await Promise.all(wrong);
  expect(new Set(said.map(({ status }) => status))).toEqual(new Set([404]));
  expect(new Set(said.map(({ text }) => text))).toEqual(new Set(['Not found\n']));
  expect(inbox()).toBe('');
  expect((await ask(home)).status).toBe(200);
});

test('what is let in may only be read, but for a visit to an animal', async () => {
  const { home } = await served();
  for (const method of ['POST', 'PUT', 'DELETE', 'OPTIONS'])
    expect((await ask(home, { method })).status, method).toBe(405);
  expect((await ask(`${home}quernholt/2086`, { method: 'PUT' })).status).toBe(405);
  expect((await ask(`${home}nowhere/`)).status).toBe(404);
  expect((await ask(`${home}quernholt/9999`)).status).toBe(404);
});

test('every answer forbids scripts, frames and telling the address on', async () => {
  const { home, port } = await served();
  for (const url of [home, `${home}quernholt/2086`, `http://127.0.0.1:${port}/`]) {
    const { headers, text } = await ask(url);
    const policy = String(headers['content-security-policy']);
    expect(policy).toContain("default-src 'none'");
    expect(policy).toContain("frame-ancestors 'none'");
    expect(policy).not.toMatch(/script-src|unsafe/);
    expect(headers).toMatchObject({ 'referrer-policy': 'same-origin', 'x-content-type-options': 'nosniff' });
    expect(text).not.toMatch(/<script|https?:\/\//);
  }
});

test('what is no request of a browser ends no server', async () => {
  const { home, port } = await served();
  const garbage = connect(port, '127.0.0.1');
  garbage.resume();
  garbage.end('GARBAGE\r\n\r\n');
  await new Promise((resolve) => garbage.on('close', resolve));
  const broken = await ask(`${home}quernholt/2086`, {
    method: 'POST',
    headers: { 'content-type': 'multipart/form-data; boundary=x' },
    body: new TextEncoder().encode('--x\r\nContent-Disposition: form-data; name="form"\r\n\r\nhalf'),
  });
  expect(broken.status).toBe(400);
  expect((await ask(`${home}quernholt/2086`, { method: 'POST', body: new Uint8Array(3) })).status).toBe(400);
  expect((await ask(home)).status).toBe(200);
});

test('a form that another page sends is refused, and one of its own is taken', async () => {
  const { home, port, inbox } = await served();
  const sent = (origin: string) => post(`${home}quernholt/2086`, visitFields(randomUUID()), { origin });
  expect((await sent('https://elsewhere.example')).status).toBe(403);
  expect((await sent('null')).status).toBe(403);
  expect(inbox()).toBe('');
  expect((await sent(`http://127.0.0.1:${port}`)).status).toBe(303);
  expect(inbox()).not.toBe('');
});

test('at port 80 the address as a browser says it is let in', () => {
  const hosts = ['127.0.0.1', '127.0.0.1:80'];
  expect(yardPlaceOf({ host: '127.0.0.1', path: `/${token}/` }, { token, hosts })).toEqual({ at: 'farms' });
});

test.each([
  ['twenty-five pictures', 25, '--x--\r\n'],
  ['forty pictures and no end mark', 40, ''],
  ['an end mark too few', 1, ''],
  ['no part at all', 0, '--x--\r\n'],
])('a body with %s is answered within two seconds', async (_, parts, end) => {
  const { home } = await served();
  const part = '--x\r\nContent-Disposition: form-data; name="photo"; filename="a.jpg"\r\nContent-Type: image/jpeg\r\n\r\nxxxx\r\n'; // prettier-ignore
  const begun = Date.now();
  const { status } = await ask(`${home}quernholt/2086`, {
    method: 'POST',
    headers: { 'content-type': 'multipart/form-data; boundary=x' },
    body: new TextEncoder().encode(part.repeat(parts) + end),
  });
  expect(status).toBeGreaterThanOrEqual(400);
  expect(status).toBeLessThan(500);
  expect(Date.now() - begun).toBeLessThan(2000);
});

test('sockets that say nothing shut nobody out', async () => {
  const { home, port } = await served();
  const slow = Array.from({ length: 250 }, () => connect(port, '127.0.0.1').on('error', () => undefined));
  for (const socket of slow) socket.write('GET / HTTP/1.1\r\n');
  await new Promise((resolve) => setTimeout(resolve, 200));
  const begun = Date.now();
  expect((await ask(home)).status).toBe(200);
  expect(Date.now() - begun).toBeLessThan(1000);
  for (const socket of slow) socket.destroy();
});

test('an answer with a sign that cannot be seen comes back, and nothing is kept', async () => {
  const { home, inbox } = await served();
  const came = await post(`${home}quernholt/2086`, visitFields(randomUUID(), { note: 'turned \u202eround' }));
  expect(came.status).toBe(422);
  expect(came.text).toContain('U+202E');
  expect(came.text).not.toContain('\u202e');
  expect(inbox()).toBe('');
});
