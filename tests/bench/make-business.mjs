// Lays an invented business of any size into a folder, the same for the same seed: plain Node.
//   node tests/bench/make-business.mjs FOLDER [--farms 100] [--cases 50] [--visits 5] [--today 2026-06-16] [--seed 1]
import { mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';

/** Between 0 and 1, the same row of numbers for the same seed (mulberry32, public domain). */
function drawsFrom(seed) {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
}

const dayMs = 86_400_000;
const plus = (day, days) => new Date(Date.parse(day) + days * dayMs).toISOString().slice(0, 10);

const kinds = [
  { code: 'WL', rest: 'claw: outer, site: white line rear, line: heel', wall: 42, share: 0.45 },
  { code: 'WLA', rest: 'claw: outer, site: abaxial wall, line: abaxial', wall: 58, share: 0.1 },
  { code: 'SU', rest: 'claw: outer', share: 0.3 },
  { code: 'DD', rest: 'site: skin behind heels', share: 0.15 },
];

function kindDrawn(draw) {
  let left = draw();
  return kinds.find(({ share }) => (left -= share) < 0) ?? kinds[0];
}

/** One animal: lifted every four weeks, most of them healed at the last lift; the later ones are open. */
function animalText(number, { visits, today, draw }) {
  const kind = kindDrawn(draw);
  const first = plus(today, -Math.floor(draw() * 3650) - 7);
  const open = draw() < 0.1;
  const foot = draw() < 0.5 ? 'LH' : 'RH';
  const perDay = (4.2 + 2 * draw()) / 30.4;
  const top = 10 + Math.floor(draw() * 8);
  const days = Array.from({ length: visits }, (_, at) =>
    plus(first, at * (26 + Math.floor(draw() * 5))),
  ).filter((day) => day <= today);
  const lame = plus(first, -Math.floor(draw() * 14));
  const written = days.map((day, at) => {
    const last = at === visits - 1 && !open;
    const gait = Math.max(0, 2 - Math.floor(at / 2));
    const found = last
      ? '{ state: healed }'
      : kind.code === 'DD'
        ? `{ stage: ${at === 0 ? 'M2' : 'M4'} }`
        : kind.wall
          ? `{ state: open, top: ${Math.min(kind.wall - 1, Math.round(2 * (top + perDay * 28 * at)) / 2)}, top-found: seen, wall: ${kind.wall}, tool: ruler }`
          : `{ state: ${at < 2 ? 'open' : 'covered'}, length: ${Math.max(3, 20 - 4 * at)}, width: ${Math.max(3, 15 - 3 * at)} }`;
    const block =
      kind.code === 'DD' || at > 1
        ? ''
        : `    blocks: [ { foot: ${foot}, claw: inner, event: ${at === 0 ? 'fitted, material: rubber' : 'removed, carrying-claw: sound'} } ]\n`;
    const asked = draw();
    const relief = gait > 1 ? (asked < 0.5 ? 'advised' : 'asked') : 'not lame';
    const reliefLine = gait > 1 && asked > 0.75 ? '' : `    pain-relief: ${relief}\n`;
    const note = draw() < 0.3 ? '    note: "Stood well in the crush."\n' : '';
    const recheck = at < visits - 1 && !last ? `    recheck: ${plus(day, 28)}\n` : '';
    return (
      `  - date: ${day}\n    by: Wyn Larkhame\n    kind: ${at === 0 ? 'first' : 'recheck'}\n    gait: ${gait}\n` +
      `    feet:\n      ${foot}: { lifted: true }\n    found:\n      a: ${found}\n${block}` +
      `${at === 0 ? `    trimmed: [${foot}]\n` : ''}${reliefLine}    tools-disinfected: true\n${recheck}${note}`
    );
  });
  const ended = days.length === visits && !open ? `, ended: ${days.at(-1)}, result: sound` : '';
  return (
    `---\ncasefile: 1\nanimal: "${number}"\nbreed: Holstein\nborn: ${plus(first, -1500 - Math.floor(draw() * 900))}\n` +
    `lesions:\n  a: { code: ${kind.code}, foot: ${foot}, ${kind.rest} }\n` +
    `episodes:\n  - { lame-since: ${lame}, told-by: "milker"${ended} }\nvisits:\n${written.join('')}---\n\n` +
    `Seen by the milker at the gate. Lifted on ${days.length} days.\n`
  );
}

const farmText = (name, draw) =>
  `---\nfarm: ${name}\nherd:\n  - { from: 2016-01-01, cows: ${120 + Math.floor(draw() * 200)}, housing: ${draw() < 0.5 ? 'grazed' : 'mixed'} }\n` +
  `hemisphere: north\ngait-scale: uk-0-3\ncondition-scale: uk-1-5\nmilkings-a-day: 2\n` +
  `vet: { practice: Ossgrain Veterinary Practice, name: P. Wexmarrow, phone: "01632 960177" }\n---\n\nAn invented farm.\n`;

/** Lays the business into a folder, which is emptied first. */
export function makeBusiness(
  folder,
  { farms = 100, cases = 50, visits = 5, today = '2026-06-16', seed = 1 } = {},
) {
  rmSync(folder, { recursive: true, force: true });
  mkdirSync(folder, { recursive: true });
  writeFileSync(
    join(folder, 'business.md'),
    '---\nbusiness: Larkhame Foot Trimming\ntrimmer: Wyn Larkhame\nlanguage: en-GB\n---\n\nAn invented business.\n',
  );
  for (let farm = 0; farm < farms; farm += 1) {
    const draw = drawsFrom(seed * 1_000_003 + farm);
    const slug = `farm-${String(farm).padStart(4, '0')}`;
    mkdirSync(join(folder, slug));
    writeFileSync(join(folder, slug, 'farm.md'), farmText(`Farm ${farm}`, draw));
    for (let at = 0; at < cases; at += 1) {
      const number = 1000 + at;
      writeFileSync(join(folder, slug, `${number}.md`), animalText(number, { visits, today, draw }));
    }
  }
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const { values, positionals } = parseArgs({
    allowPositionals: true,
    options: Object.fromEntries(
      ['farms', 'cases', 'visits', 'today', 'seed'].map((name) => [name, { type: 'string' }]),
    ),
  });
  const given = Object.entries(values).map(([name, value]) => [
    name,
    name === 'today' ? value : Number(value),
  ]);
  makeBusiness(positionals[0] ?? fail(), Object.fromEntries(given));
}

function fail() {
  console.error('name a folder to lay the business into');
  process.exit(2);
}
