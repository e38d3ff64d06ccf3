import { randomUUID } from 'node:crypto';
import { request } from 'node:http';
import { appendFileSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { ask, packed, picture, post, served, visitFields } from './served.js';

const lines = (text: string): Record<string, unknown>[] =>
  text
    .split('\n')
    .filter(Boolean)
    .map((line) => JSON.parse(line) as Record<string, unknown>);

test('a length without the status of its lesion is asked for at its field', async () => {
  const { home, inbox } = await served();
  const { 'found.a.state': _state, ...less } = visitFields(randomUUID());
  const came = await post(`${home}quernholt/2086`, less);
  expect(came.status).toBe(422);
  expect(inbox()).toBe('');
  expect(came.text).toMatch(/href="#[^"]*found[^"]*a[^"]*state[^"]*"/);
  expect(came.text).toContain('a: State: nothing given, expected “state” (open, covered, healed or lasting)');
  expect(came.text).not.toContain('found.a of');
});

test('what the record has against a visit is at the field it is about; of another visit at none', async () => {
  const { home } = await served();
  const send = (more: Readonly<Record<string, string>>) =>
    post(`${home}quernholt/2086`, visitFields(randomUUID(), more));
  const listed = (text: string) => [...text.matchAll(/href="#f-([^"]*)"/g)].map(([, field]) => field);
  expect(listed((await send({ date: '2026-06-17' })).text)).toEqual(['date']);
  expect(listed((await send({ 'found.a.top': '72', 'found.a.wall': '43' })).text)).toEqual(['found.a.top']);
  // Both of one field are said there.
  const both = await send({ kind: 'report', 'found.a.top': '72', 'found.a.wall': '43' });
  expect(listed(both.text)).toEqual(['found.a.top', 'found.a.wall']);
  expect(both.text).toMatch(/found\.a\.top is in a report visit.*found\.a\.top is 72/);
  // Healed before she was found open: that is wrong at the visit on file, and said above the form.
  const healed = await send({
    date: '2026-01-02',
    kind: 'report',
    'found.a.state': 'healed',
    'found.a.top': '',
    'found.a.tool': '',
  });
  expect(healed.status).toBe(422);
  expect(healed.text).toContain('<li>found.a is open on 2026-01-06 and was healed on 2026-01-02');
  expect(listed(healed.text)).toEqual([]);
});

test('a page loaded anew that sends the very same keeps it once; anything else beside it is kept too', async () => {
  const { home, inbox } = await served();
  const url = `${home}quernholt/2086`;
  const seen = { 'photos.0.file': picture(), 'photos.0.foot': 'LH', 'photos.0.view': 'sole' };
  const first = randomUUID();
  await post(url, { ...visitFields(first), ...seen });
  const again = await post(url, { ...visitFields(randomUUID()), ...seen });
  expect(again.headers['location']).toBe(`2086?kept=${first}&how=already`);
  expect(lines(inbox())).toHaveLength(1);
  await post(url, visitFields(randomUUID()));
  await post(url, visitFields(randomUUID(), { gait: '1' }));
  expect(lines(inbox())).toHaveLength(3);
});

test('what was read before and what was expected is on no page before the visit is sent, and on the one that says it is kept', async () => {
  const { home } = await served();
  const url = `${home}quernholt/2086`;
  const form = await ask(url);
  const readBefore = /top 17[ \u00a0]mm|should read|scored 2/;
  expect(form.text).toContain('Last visit, 6 January 2026');
  for (const { text } of [
    form,
    await ask(`${home}quernholt/`),
    await post(url, visitFields(randomUUID(), { 'found.a.top': '25 mm' })),
  ])
    // prettier-ignore
    expect(text).not.toMatch(readBefore);
  const { headers } = await post(url, visitFields(randomUUID()));
  const kept = await ask(`${home}quernholt/${String(headers['location'])}`);
  // A number and its unit are on one line.
  expect(kept.text).toContain('top 17\u00a0mm');
  expect(kept.text).toContain('should read');
});

test('a visit is in the inbox before it is called kept, and a double tap keeps it once', async () => {
  const { home, inbox, said } = await served();
  const form = randomUUID();
  const url = `${home}quernholt/2086`;
  const both = await Promise.all([post(url, visitFields(form)), post(url, visitFields(form))]);
  expect(both.map(({ status }) => status)).toEqual([303, 303]);
  const [entry, ...more] = lines(inbox());
  expect(more).toEqual([]);
  expect(entry).toMatchObject({
    id: form,
    animal: '2086',
    visit: {
      date: '2026-06-16',
      by: 'Orla Venn',
      kind: 'recheck',
      found: { a: { state: 'open', top: 25, tool: 'tape' } },
    },
    pictures: [],
  });
  const to = both.map(({ headers }) => String(headers['location'])).toSorted();
  expect(to).toEqual([`2086?kept=${form}&how=already`, `2086?kept=${form}&how=kept`]);
  expect((await ask(`${home}quernholt/${to[0]}`)).text).toContain('Already kept');
  expect((await ask(`${home}quernholt/${to[1]}`)).text).toContain('growdown take');
  expect(said).toContain('kept: quernholt/2086, visit of 2026-06-16, pictures: 0\n');
  expect((await ask(`${home}quernholt/`)).text).toContain('not taken yet');
});

test('going back, changing and sending again takes the place of what was sent first', async () => {
  const { home, inbox } = await served();
  const form = randomUUID();
  const send = (top: string) => post(`${home}quernholt/2086`, visitFields(form, { 'found.a.top': top }));
  for (const top of ['25', '26', '26', '25']) expect((await send(top)).status).toBe(303);
  expect(lines(inbox()).map(({ id, 'instead-of': instead }) => [id, instead])).toEqual([
    [form, undefined],
    [`${form}.2`, form],
    [`${form}.3`, form],
  ]);
});

test('what is wrong comes back at its field with all that was typed, pictures too, and nothing is kept', async () => {
  const { home, inbox, cases } = await served();
  const form = randomUUID();
  const url = `${home}quernholt/2086`;
  const wrong = await post(url, {
    ...visitFields(form, { 'found.a.top': '25 mm', note: 'kicks <hard>', 'photos.0.view': 'sole' }),
    'photos.0.file': picture(),
  });
  expect(wrong.status).toBe(422);
  expect(wrong.text).toContain('value="25 mm"');
  expect(wrong.text).toContain('kicks &lt;hard&gt;');
  expect(wrong.text).toContain('href="#f-found.a.top"');
  expect(wrong.text).toContain(`name="form" value="${form}"`);
  const held = /name="photos\.0\.held" value="([^"]+)"/.exec(wrong.text)?.[1] ?? '';
  expect(readdirSync(join(cases, 'quernholt/.growdown/inbox/pictures'))).toEqual([held]);
  expect(inbox()).toBe('');
  const again = await post(url, visitFields(form, { 'photos.0.view': 'sole', 'photos.0.held': held }));
  expect(again.status).toBe(303);
  expect(lines(inbox())[0]).toMatchObject({ pictures: [{ held, shows: { view: 'sole' } }] });
});

test.each([
  ['a day in the future', { date: '2026-06-17' }, /2026-06-17/],
  ['a top beyond the wall', { 'found.a.top': '72', 'found.a.wall': '43' }, /72/],
  [
    'nothing but who and when',
    { 'found.a.state': '', 'found.a.top': '', 'found.a.tool': '' },
    /Nothing is answered/,
  ],
])('%s: the record would refuse it, which is said; it may be kept all the same', async (_, more, words) => {
  const { home, inbox } = await served();
  const form = randomUUID();
  const url = `${home}quernholt/2086`;
  const refused = await post(url, visitFields(form, more));
  expect(refused.status).toBe(422);
  expect(refused.text).toMatch(words);
  expect(refused.text).toContain('name="keep"');
  expect(inbox()).toBe('');
  const kept = await post(url, visitFields(form, { ...more, keep: 'as it is' }));
  expect(kept.status).toBe(303);
  expect(String(kept.headers['location'])).toContain('beside=yes');
  expect(lines(inbox())).toHaveLength(1);
});

test('the limits hold, and what was typed still comes back', async () => {
  const { home, inbox } = await served();
  const url = `${home}quernholt/2086`;
  const large = await post(url, { ...visitFields(randomUUID()), 'photos.0.file': picture(12_000_001) });
  expect(large.status).toBe(422);
  expect(large.text).toContain('over 12 million bytes');
  expect(large.text).toContain('value="25"');
  const much = await post(url, {
    ...visitFields(randomUUID()),
    'photos.0.file': picture(11_000_000, 1),
    'photos.1.file': picture(11_000_000, 2),
    'photos.2.file': picture(11_000_000, 3),
  });
  expect(much.status).toBe(422);
  expect(much.text).toContain('25 million bytes for a visit');
  expect(much.text).toContain('value="25"');
  const far = await ask(url, {
    method: 'POST',
    headers: { 'content-type': 'multipart/form-data; boundary=x', 'content-length': '200000000' },
    body: new Uint8Array(0),
  }).catch(() => undefined);
  expect(far?.status ?? 413).toBe(413);
  const parts = Object.fromEntries(Array.from({ length: 2100 }, (_, i) => [`x${i}`, 'y']));
  expect((await post(url, { ...visitFields(randomUUID()), ...parts })).status).toBe(422);
  const long = await post(url, visitFields(randomUUID(), { note: 'x'.repeat(20_001) }));
  expect(long.text).toContain('over 20000 letters');
  expect(inbox()).toBe('');
}, 30_000);

test.each([
  ['HEIC', new Blob([new Uint8Array([0, 0, 0, 24]), 'ftypheic', 'rest of it']), 'HEIC'],
  ['a text', new Blob(['<script>']), 'not a picture'],
])('%s is not taken for a picture', async (_, file, words) => {
  const { home } = await served();
  const came = await post(`${home}quernholt/2086`, { ...visitFields(randomUUID()), 'photos.0.file': file });
  expect(came.status).toBe(422);
  expect(came.text).toContain(words);
});

test('what cannot be written is not called kept', async () => {
  const { disk } = await served();
  const full = () => {
    throw Object.assign(new Error('ENOSPC: no space left on device'), { code: 'ENOSPC' });
  };
  const { home, said, inbox } = await served({ disk: { ...disk, append: full } });
  const came = await post(`${home}quernholt/2086`, visitFields(randomUUID()));
  expect(came.status).toBe(500);
  expect(came.text).toContain('None of it is kept');
  expect(said.join('')).toContain('ENOSPC');
  expect(inbox()).toBe('');
});

test('a line cut short spoils no other', async () => {
  const { home, inbox, cases } = await served();
  const url = `${home}quernholt/2086`;
  await post(url, visitFields(randomUUID()));
  appendFileSync(join(cases, 'quernholt/.growdown/inbox/visits.jsonl'), '{"format":1,"id":"');
  expect((await post(url, visitFields(randomUUID(), { by: 'Dob Tansworrel' }))).status).toBe(303);
  expect(inbox().split('\n')).toHaveLength(4);
  expect(() => JSON.parse(inbox().split('\n')[2] ?? '')).not.toThrow();
  expect(readFileSync(join(cases, 'quernholt/2086.md'), 'utf8')).not.toContain('Tansworrel');
});

test('stopping finishes what is under way and takes nothing new', async () => {
  const { home, stop, inbox } = await served();
  const { type, body } = await packed({ ...visitFields(randomUUID()), 'photos.0.file': picture(300_000) });
  const going = request(`${home}quernholt/2086`, {
    method: 'POST',
    agent: false,
    headers: { 'content-type': type, 'content-length': String(body.length), expect: '100-continue' },
  });
  const answered = new Promise<number | undefined>((resolve, reject) => {
    going.on('response', (response) => resolve(response.resume().statusCode));
    going.on('error', reject);
  });
  going.flushHeaders();
  await new Promise((resolve) => going.on('continue', resolve));
  going.write(body.subarray(0, 1000));
  const stopped = stop();
  await expect(ask(home)).rejects.toThrow();
  expect(inbox()).toBe('');
  going.end(body.subarray(1000));
  expect(await answered).toBe(303);
  await stopped;
  expect(lines(inbox())).toHaveLength(1);
});

test('what looks like a slip comes back at its field, and is kept as right only where that was asked', async () => {
  const { home, inbox } = await served();
  const url = `${home}quernholt/2086`;
  const form = randomUUID();
  const came = await post(url, visitFields(form, { 'found.a.top': '2.4' }));
  expect(came.status).toBe(422);
  expect(inbox()).toBe('');
  expect(came.text).toContain('2.4 mm? 24 would fit.');
  expect(came.text).toContain('Is this right? Correct it below, or send it as it is');
  const [, keep = ''] = /name="keep" value="([^"]*)"/.exec(came.text) ?? [];
  // Changed since into another slip: asked again.
  const other = await post(url, visitFields(form, { 'found.a.top': '0.8', keep }));
  expect(other.status).toBe(422);
  expect(other.text).toContain('0.8 mm? 8 would fit.');
  expect(inbox()).toBe('');
  expect((await post(url, visitFields(form, { 'found.a.top': '2.4', keep }))).status).toBe(303);
  expect(lines(inbox())).toMatchObject([
    { id: form, 'even-so': true, visit: { found: { a: { top: 2.4 } } } },
  ]);
});

test('a day before her last visit is asked about by the form too; what fits is kept without a question', async () => {
  const { home, inbox } = await served();
  const url = `${home}quernholt/2086`;
  const early = await post(url, visitFields(randomUUID(), { date: '2025-12-20', 'found.a.top': '' }));
  expect(early.status).toBe(422);
  expect(early.text).toContain('2025-12-20? Her last visit is of 2026-01-06.');
  expect((await post(url, visitFields(randomUUID()))).status).toBe(303);
  expect(lines(inbox())[0]).not.toHaveProperty('even-so');
});

test('what a record or an answer says is in an element of its own on every page served', async () => {
  const { home } = await served();
  const form = randomUUID();
  await post(`${home}quernholt/2086`, visitFields(form, { note: 'calm <once>' }));
  for (const [path, says] of [
    ['', 'Quernholt'],
    ['quernholt/', 'Quernholt'],
    ['quernholt/2086', 'Orla Venn'],
    [`quernholt/2086?kept=${form}`, 'calm &lt;once&gt;'],
  ] as const) {
    const { text } = await ask(home + path);
    expect(text, path).toContain(`<bdi>${says}</bdi>`);
    expect(text, path).not.toMatch(/[\u2068\u2069]|<title>[^<]*<bdi/);
  }
});

/** The least a case opened says. */
const opening = (form: string, more: Readonly<Record<string, string>> = {}): Record<string, string> => ({
  ...visitFields(form, { kind: 'first' }),
  'lesions.a.code': 'WL',
  'lesions.a.foot': 'LH',
  'lesions.a.claw': 'outer',
  'lesions.a.line': 'heel',
  animal: '2500',
  ...more,
});

test('a case is opened under a number that has none; one by any name of another cow is not', async () => {
  const { home, inbox } = await served();
  const url = `${home}quernholt/+`;
  expect((await ask(url)).text).toContain('Her number');
  for (const number of ['2086', '', ' 2086 ']) {
    const came = await post(url, opening(randomUUID(), { animal: number }));
    expect(came.status, number).toBe(422);
    expect(came.text).toContain('href="#f-animal"');
  }
  expect(inbox()).toBe('');
  const form = randomUUID();
  const { headers } = await post(url, opening(form, { animal: '25/00', tag: 'UK 000123 402500' }));
  expect(headers['location']).toBe(`+?kept=${form}&how=kept`);
  expect(lines(inbox())).toMatchObject([
    {
      animal: '25-00',
      opens: { animal: '25/00', tag: 'UK 000123 402500' },
      declares: { lesions: { a: { code: 'WL', foot: 'LH', claw: 'outer', line: 'heel' } } },
    },
  ]);
  const list = await ask(`${home}quernholt/`);
  expect(list.text).toContain(`href="+?sent=${form}"`);
  // One that waits is no other cow's number either; its own form may say it again.
  expect((await post(url, opening(randomUUID(), { animal: '25/00' }))).status).toBe(422);
  expect((await post(url, opening(form, { animal: '25/00', gait: '1' }))).status).toBe(303);
  // What the record has against it is said at its field.
  const without = await post(url, opening(randomUUID(), { animal: '2501', 'lesions.a.line': '' }));
  expect(without.status).toBe(422);
  expect(without.text).toMatch(/line/);
});

test('what was sent as being like last time is that tap again where it is changed; what differs stands for itself', async () => {
  const { home } = await served();
  const url = `${home}quernholt/2086`;
  const tap = /name="found\.a\.last" value="yes" checked/;
  for (const [tool, isTap] of [
    ['tape', true],
    ['ruler', false],
  ] as const) {
    const form = randomUUID();
    await post(url, visitFields(form, { 'found.a.top-found': 'seen', 'found.a.tool': tool }));
    const { text } = await ask(`${url}?sent=${form}`);
    expect(tap.test(text), tool).toBe(isTap);
    expect(text.includes(`name="found.a.tool" value="${tool}" checked`), tool).toBe(!isTap);
  }
});

test('what waits is shown as it was sent, pictures too, to be changed; what was set aside or is another cow’s is not', async () => {
  const { home, inbox, cases } = await served();
  const url = `${home}quernholt/2086`;
  const form = randomUUID();
  await post(url, {
    ...visitFields(form, { note: 'calm' }),
    'photos.0.file': picture(),
    'photos.0.view': 'sole',
  });
  const { text } = await ask(`${url}?sent=${form}`);
  expect(text).toContain('value="25"');
  expect(text).toContain(`name="form" value="${form}"`);
  expect(text).toMatch(/name="photos\.0\.held" value="[^"]+"/);
  expect(text).toMatch(/<option value="sole" selected>/);
  expect((await ask(url)).text).toContain(`href="?sent=${form}"`);
  const held = /name="photos\.0\.held" value="([^"]+)"/.exec(text)?.[1] ?? '';
  await post(
    url,
    visitFields(form, { note: 'calm', 'found.a.top': '26', 'photos.0.view': 'sole', 'photos.0.held': held }),
  );
  expect(lines(inbox())[1]).toMatchObject({ id: `${form}.2`, 'instead-of': form, pictures: [{ held }] });
  expect((await ask(`${url}?sent=${form}`)).status).toBe(404);
  expect((await ask(`${home}quernholt/+?sent=${form}.2`)).status).toBe(404);
  const aside = JSON.stringify({ id: `${form}.2`, on: '2026-06-16', became: 'set aside' });
  appendFileSync(join(cases, 'quernholt/.growdown/inbox/taken.jsonl'), `${aside}\n`);
  expect((await ask(`${url}?sent=${form}.2`)).status).toBe(404);
  expect((await ask(url)).text).not.toContain('?sent=');
});
