import { expect, it } from 'vitest';
import { countLine, formatProblem } from '../../src/problem/format-problem.js';
import type { Problem } from '../../src/problem/problem.js';

const problem: Problem = {
  id: 'value/unit',
  severity: 'error',
  file: 'cases/quernholt/2086.md',
  place: { line: 31, column: 30, endColumn: 35 },
  message: 'found.a.top is `72 mm`, expected the number alone',
  mend: 'write `72`',
  excerpt: '      a: { state: open, top: 72 mm, wall: 43 }',
};

it('one complete line, the line of the file with carets, how to fix it', () => {
  expect(formatProblem(problem)).toBe(
    [
      'cases/quernholt/2086.md:31:30: error value/unit: found.a.top is `72 mm`, expected the number alone',
      '   31 |       a: { state: open, top: 72 mm, wall: 43 }',
      '                                     ^^^^^',
      '  fix: write `72`',
    ].join('\n'),
  );
});

it('cuts a long line round the trouble and keeps the carets under it', () => {
  const excerpt = `${'x'.repeat(500)}HERE${'y'.repeat(500)}`;
  const [, shown = '', carets = ''] = formatProblem({
    ...problem,
    excerpt,
    place: { line: 3, column: 501, endColumn: 505 },
  }).split('\n');
  expect(shown.length).toBeLessThan(120);
  expect(shown.slice(carets.indexOf('^'), carets.lastIndexOf('^') + 1)).toBe('HERE');
});

it('keeps control characters, colours and direction marks off the terminal', () => {
  const text = 'a\u001b[31mb\u0007\u202ec\td';
  const formatted = formatProblem({ ...problem, message: text, mend: text, file: text, excerpt: text });
  // eslint-disable-next-line no-control-regex
  expect(formatted).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u202e]/);
  expect(formatted).toContain('a·[31mb··c→d');
});

it('counts by severity and by file', () => {
  const note: Problem = { ...problem, severity: 'note', file: 'cases/quernholt/2087.md' };
  expect(countLine([problem, problem], 37)).toBe('2 errors in 1 of 37 files');
  expect(countLine([problem, note], 37)).toBe('1 error, 1 note in 2 of 37 files');
  expect(countLine([], 1)).toBe('no problems in 1 file');
});
