import { existsSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { z } from 'zod';
import { nodeCaseFiles } from '../../src/casefile/node-case-files.js';
import { readPractice } from '../../src/casefile/read-practice.js';
import { pooledOn } from '../../src/herd/pooled-on.js';
import type { CaseRecord, FarmRecord } from '../../src/record/practice.js';
import { workOutCase } from '../../src/schedule/work-out-case.js';

const text = z.string();
const texts = z.array(text).optional();
const range = z.tuple([z.number(), z.number()]).optional();

/** What a story says should be seen. Each key is one thing looked for; absent: not part of this story. */
const shows = z.strictObject({
  foot: text.optional(),
  claw: text.optional(),
  kinds: texts,
  tools: texts,
  stages: texts,
  latestZ: range,
  ranUpMm: range,
  wall: z.enum(['measured', 'reference']).optional(),
  forecast: z.enum(['range', 'if-sound-horn-follows']).optional(),
  why: text.optional(),
  heldSince: text.optional(),
  standing: text.optional(),
  againOf: text.optional(),
  groove: z.literal(true).optional(),
  calvings: z.number().optional(),
  dryOn: text.optional(),
  nearCalving: z.literal(true).optional(),
  earlier: text.optional(),
  closed: text.optional(),
  gait: text.optional(),
  gaitOnBlock: z.number().optional(),
  gaitOffBlock: z.number().optional(),
  blockEvents: texts,
  carryingClaw: text.optional(),
  notices: texts,
  due: texts,
  overdue: texts,
  withheldOn: text.optional(),
  tasksDone: texts,
  tasksOpen: texts,
  vetAnswered: texts,
  gaps: texts,
});

const story = z.strictObject({
  story: text,
  farm: text,
  animal: text,
  lesion: text.optional(),
  mark: text.optional(),
  shows,
});
export type Story = z.infer<typeof story>;

const table = z.strictObject({ today: text, stories: z.array(story) });

export const { today, stories } = table.parse(
  JSON.parse(readFileSync(new URL('stories.json', import.meta.url), 'utf8')),
);

export const casesFolder = fileURLToPath(new URL('../../cases', import.meta.url));

/** The demo as the product reads it, on the demo's day. */
export const demo = readPractice(nodeCaseFiles, casesFolder, { today });

/** What the book starts from: what all cows on file teach on the demo's day. */
const priors = pooledOn(demo.practice, today).priors;

/** Everything worked out for one animal on the demo's day. */
export function workedOut(caseRecord: CaseRecord, farmRecord: FarmRecord) {
  const work = workOutCase(farmRecord, caseRecord, {
    business: demo.practice.business,
    today,
    prior: priors.priorOf(farmRecord.slug, caseRecord.slug),
    isPictureThere: (file) => existsSync(`${casesFolder}/${farmRecord.slug}/${file}`),
  });
  return { caseRecord, farmRecord, ...work };
}

/** Every animal of the demo, by `farm/slug`. */
export const animals = new Map(
  demo.practice.farms.flatMap((farm) =>
    farm.cases.map((one) => [`${farm.slug}/${one.slug}`, workedOut(one, farm)] as const),
  ),
);
