import type { Reporter, TestModule } from 'vitest/node';

/** Ends a run with one plain line, `N passed, N failed`, that any machine can read. */
export default class PlainLineReporter implements Reporter {
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
        const state = test.result().state;
        if (state === 'passed') passed += 1;
        else if (state === 'failed') failed += 1;
        else skipped += 1;
      }
    }
    console.log(`${passed} passed, ${failed} failed${skipped > 0 ? `, ${skipped} skipped` : ''}`);
  }
}
