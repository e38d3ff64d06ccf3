import type { Reporter, TestModule, Vitest } from 'vitest/node';

/** Ends a run with what was left out and why, and one plain line, `N passed, N failed`, that any machine can read. */
export default class PlainLineReporter implements Reporter {
  private vitest?: Vitest;

  onInit(vitest: Vitest): void {
    this.vitest = vitest;
  }

  onTestRunEnd(modules: readonly TestModule[]): void {
    let passed = 0;
    let failed = 0;
    let skipped = 0;
    for (const module of modules) {
      if (
        module.state() === 'failed' &&
        [...module.children.allTests()].every((t) => t.result().state !== 'failed')
      )
        failed += 1;
      for (const test of module.children.allTests()) {
        const result = test.result();
        if (result.state === 'passed') passed += 1;
        else if (result.state === 'failed') failed += 1;
        else {
          skipped += 1;
          const why = result.state === 'skipped' ? result.note : undefined;
          // Whoever asks for some tests by name is not shown the others.
          if (why === undefined && this.vitest?.config.testNamePattern) continue;
          console.log(`left out: ${test.fullName}: ${why ?? 'no reason given'}`);
        }
      }
    }
    console.log(`${passed} passed, ${failed} failed${skipped > 0 ? `, ${skipped} skipped` : ''}`);
  }
}
