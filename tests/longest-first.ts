import { BaseSequencer, type TestSpecification } from 'vitest/node';

/** Begins with what takes longest, the pages in a browser, so that no worker is left alone with them at the end. */
export default class LongestFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const inBrowser = (file: TestSpecification) => Number(/\/tests\/(?:browser|pdf)\//.test(file.moduleId));
    const sorted = await super.sort(files);
    return sorted.toSorted((a, b) => inBrowser(b) - inBrowser(a));
  }
}
