// A program of its own: node write-visits.mjs CASES BY COUNT adds so many reports to quernholt/2086, one after another.
import { nodeCaseFiles } from '../../dist/casefile/node-case-files.js';
import { nodeDisk } from '../../dist/cli/node-disk.js';
import { addVisit } from '../../dist/keep/add-visit.js';
import { commitChange } from '../../dist/keep/disk/commit-change.js';

const [cases, by, count] = process.argv.slice(2);
const keeping = { files: nodeCaseFiles, cases, today: '2026-11-25' };
const disk = nodeDisk(cases, nodeCaseFiles);
let written = 0;
for (let n = 0; n < Number(count); n += 1) {
  const draft = { date: '2026-02-03', by, kind: 'report', note: `number ${n}` };
  const done = await commitChange(disk, keeping, ['quernholt'], () =>
    addVisit(keeping, 'quernholt', '2086', draft),
  );
  if (done.outcome === 'written') written += 1;
  else console.error(done);
}
process.stdout.write(String(written));
