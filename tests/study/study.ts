import type { StudyResults } from '../../src/reference/study-results.js';
import { alarmsOf, isCalledHeld } from './alarms.js';
import { coverageOf } from './coverage.js';
import { type Plan, soundReadings } from './made-cow.js';
import { SeededDraws } from './seeded-draws.js';

/** How large a study: cows drawn for each row. */
export interface StudySize {
  readonly seed: number;
  readonly sound: number;
  readonly troubled: number;
  readonly unlike: number;
}

const tools = ['calliper', 'ruler', 'eye'] as const;
/** Drawn behind all rows there were before them, so that those stay the same cows. */
const toolsAfter = ['photo'] as const;
const weeksApart = [2, 4, 6] as const;
const troubles = [
  { ranUpMm: 8 },
  { ranUpMm: 12 },
  { ranUpMm: 16 },
  'held',
] as const satisfies readonly NonNullable<Plan['trouble']>[];

/** Cows the model was not made for; and, first and last, some it was, to compare with. */
const unlike: readonly {
  readonly what: StudyResults['unlike'][number]['what'];
  readonly plan: Partial<Plan>;
}[] = [
  { what: 'as the model takes them', plan: {} },
  { what: 'growth 30 % slower', plan: { growth: 0.7 } },
  { what: 'growth 30 % slower, 200 such cows on file', plan: { growth: 0.7, onFile: 200 } },
  { what: 'every top read 5 mm too far down', plan: { biasMm: 5 } },
  { what: 'every top read 5 mm too far up', plan: { biasMm: -5 } },
  { what: 'growth three times as uneven', plan: { uneven: 3 } },
  { what: 'wall not measured', plan: { wall: 'left out' } },
  { what: 'wall guessed, off by 10 mm, and written as measured', plan: { wall: { guessedSdMm: 10 } } },
  { what: 'near the coronet, dorsal: none out while read', plan: { startMm: [5, 10], everyDays: 42 } },
];

const unlikeAfter: typeof unlike = [
  { what: 'growth twice as uneven', plan: { uneven: 2 } },
  { what: 'growth 25 % slower', plan: { growth: 0.75 } },
  { what: 'growth 25 % slower, 20 such cows on file', plan: { growth: 0.75, onFile: 20 } },
  { what: 'every top read 3 mm too far down', plan: { biasMm: 3 } },
  { what: 'every top read 3 mm too far up', plan: { biasMm: -3 } },
  { what: 'season of 25 %', plan: { swing: 0.25 } },
  { what: 'wall read beside the gap, 4 mm longer give or take 3', plan: { wall: { besideMm: [4, 3] } } },
];

/** Runs the whole study: sound cows, cows in trouble, cows the model was not made for. One stream of chance throughout. */
export function runStudy(size: StudySize): Omit<StudyResults, 'about' | 'command' | 'generator' | 'proof'> {
  const draws = new SeededDraws(size.seed);
  const soundBy = (tool: StudyResults['sound'][number]['tool']) =>
    weeksApart.map((weeks) => {
      const plan: Plan = { tool, everyDays: 7 * weeks, readings: 5 };
      return { tool, weeks, ...coverageOf(draws, plan, size.sound) };
    });
  const first = tools.flatMap(soundBy);
  const troubled = troubles.flatMap((trouble) =>
    tools.flatMap((tool) =>
      weeksApart.map((weeks) => {
        const plan: Plan = { tool, everyDays: 7 * weeks, readings: soundReadings + 5, trouble };
        const what: StudyResults['troubled'][number]['what'] =
          trouble === 'held' ? 'held' : `ran up ${trouble.ranUpMm} mm`;
        return { what, tool, weeks, ...alarmsOf(draws, plan, size.troubled) };
      }),
    ),
  );
  const called = tools.flatMap((tool) =>
    weeksApart.map((weeks) => {
      const plan: Plan = { tool, everyDays: 7 * weeks, readings: soundReadings + 5, trouble: 'held' };
      const what = 'held, said outright' as const;
      return { what, tool, weeks, ...alarmsOf(draws, plan, size.troubled, isCalledHeld) };
    }),
  );
  const unlikeOf = ({ what, plan }: (typeof unlike)[number]) => {
    const full: Plan = { tool: 'ruler', everyDays: 28, readings: 5, ...plan };
    return { what, weeks: full.everyDays / 7, ...coverageOf(draws, full, size.unlike) };
  };
  const others = unlike.map(unlikeOf);
  const sound = [...first, ...toolsAfter.flatMap(soundBy)];
  others.push(...unlikeAfter.map(unlikeOf));
  const cows =
    size.sound * sound.length +
    size.troubled * (troubled.length + called.length) +
    size.unlike * others.length;
  return rounded({ seed: size.seed, cows, sound, troubled: [...troubled, ...called], unlike: others });
}

/** The first row's first forty cows: quick to draw again, so that a test can tell whether the results are still the code's. */
export function proofOf(seed: number): StudyResults['proof'] {
  return rounded(
    coverageOf(new SeededDraws(seed), { tool: 'calliper', everyDays: 14, readings: 5 }, 40).byReadings,
  );
}

/** To four places: what a study of this size can tell. */
function rounded<T>(value: T): T {
  return JSON.parse(JSON.stringify(value), (_, one: unknown) =>
    typeof one === 'number' ? Number(one.toFixed(4)) : one,
  ) as T;
}
