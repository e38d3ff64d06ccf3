import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { type FarmsChosen, chooseFarm } from '../../src/casefile/choose-farm.js';
import { readPractice } from '../../src/casefile/read-practice.js';
import { catalogue } from './catalogue.js';
import { countLine, formatProblem } from '../../src/problem/format-problem.js';
import { caseFilesInMemory } from './case-files-in-memory.js';
import { filesUnder } from './files-under.js';
import { generatedCases } from './generated-cases.js';

/**
 * One folder an id: `tests/casefiles/bad/AREA--WHAT` is a cases folder as the user would keep it, with `expected.txt`
 * in it as the user would read it. UPDATE_EXPECTED=1 writes what was said; read it before keeping it: can it be obeyed by somebody with wet hands?
 */
const bad = fileURLToPath(new URL('../casefiles/bad', import.meta.url));
const today = '2026-11-25';

const folders = readdirSync(bad).sort();

function read(id: string): FarmsChosen {
  const generated = generatedCases[id];
  if (generated) {
    const { files, farm } = generated;
    return chooseFarm(readPractice(caseFilesInMemory(files), 'cases', { today }), farm);
  }
  return chooseFarm(
    readPractice(filesUnder(`${bad}/${id.replace('/', '--')}`), 'cases', { today }),
    undefined,
  );
}

function said({ problems, filesRead }: FarmsChosen): string {
  return [...problems.map(formatProblem), '', countLine(problems, filesRead), ''].join('\n');
}

describe.each(
  [...new Set([...folders.map((name) => name.replace('--', '/')), ...Object.keys(generatedCases)])].sort(),
)('%s', (id) => {
  const folder = `${bad}/${id.replace('/', '--')}`;
  const reading = read(id);

  it('is said in the expected words', () => {
    const file = `${folder}/expected.txt`;
    if (process.env['UPDATE_EXPECTED'] === '1') {
      mkdirSync(folder, { recursive: true });
      writeFileSync(file, said(reading));
    }
    expect(said(reading)).toBe(existsSync(file) ? readFileSync(file, 'utf8') : 'no expected.txt yet');
  });

  it('is said at all', () => {
    expect(reading.problems.map((problem) => problem.id)).toContain(id);
  });

  it('refuses the farm where it is an error, and keeps it where it is not', () => {
    const { farms, problems, farmsFound, farmsRefused } = reading;
    const slugs = farms.map(({ slug }) => slug);
    expect([...slugs, ...farmsRefused].sort()).toEqual([...farmsFound].sort());
    if (problems.every(({ severity }) => severity !== 'error')) expect(farmsRefused).toEqual([]);
    else if (farmsFound.length === 1) expect(farmsRefused).toEqual(farmsFound);
  });
});

it('every id of the catalogue has its bad case', () => {
  const shown = new Set([...folders.map((name) => name.replace('--', '/')), ...Object.keys(generatedCases)]);
  // What is sealed later, and a head given, are the check command's (tests/cli/seal.test.ts).
  const ofACommand = ['seal/unsealed', 'ledger/head-unknown'];
  // Gaps are found by the schedule, troubles of an archive by verify, and what is asked of an entry by whoever enters it; tests/schedule, tests/archive and tests/keep raise each of them.
  const ofTheReader = [...catalogue().keys()].filter((id) => !/^(?:gap|archive|entry)\//.test(id));
  expect(ofTheReader.filter((id) => !shown.has(id) && !ofACommand.includes(id))).toEqual([]);
});

it('every problem that was said is in the catalogue', () => {
  const ids = [...folders.map((name) => name.replace('--', '/')), ...Object.keys(generatedCases)].flatMap(
    (id) => read(id).problems.map((problem) => problem.id),
  );
  expect([...new Set(ids)].filter((id) => !catalogue().has(id))).toEqual([]);
});
