import { type PracticeReading, readPractice } from '../casefile/read-practice.js';
import { countLine } from '../problem/count-line.js';
import { formatProblem } from '../problem/format-problem.js';
import type { Problem } from '../problem/problem.js';
import type { CalendarDay } from '../record/calendar-day.js';
import { type CommonOptions, folderOf } from './common-options.js';
import type { Effects } from './effects.js';
import { WrongUse } from './exit-code.js';

/** What a command starts from: the case files read and checked, and the day it works as on. */
export interface Reading extends PracticeReading {
  readonly today: CalendarDay;
}

/** Reads the case files that the options name. */
export function readCases(options: CommonOptions, effects: Effects): Reading {
  const today = options.today ?? effects.today();
  const reading = readPractice(effects.files, folderOf(effects, options.cases), {
    today,
    named: options.cases,
    ...(options.farm === undefined ? {} : { farm: options.farm }),
  });
  if (options.farm !== undefined && !reading.farmsFound.includes(options.farm)) {
    const known =
      reading.farmsFound.length > 0
        ? `found: ${reading.farmsFound.join(', ')}`
        : 'no farm folder was found there';
    throw new WrongUse(`no farm "${options.farm}" in ${options.cases}; ${known}`);
  }
  return { ...reading, today };
}

/** Lists problems, one after the other, then their count. */
export function listProblems(problems: readonly Problem[], filesRead: number, effects: Effects): void {
  if (problems.length === 0) return;
  for (const problem of problems) effects.warn(`${formatProblem(problem)}\n`);
  effects.warn(`${countLine(problems, filesRead)}\n`);
}
