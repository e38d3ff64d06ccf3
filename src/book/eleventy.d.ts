/** The part of Eleventy's programmatic interface that the book uses; the package ships no types. */
declare module '@11ty/eleventy' {
  interface UserConfig {
    addNunjucksGlobal(name: string, value: unknown): void;
  }
  interface RenderedPage {
    readonly url: string | false;
    readonly inputPath: string;
    readonly content: string;
  }
  export default class Eleventy {
    constructor(
      input: string,
      output: string,
      options: {
        readonly configPath: string;
        readonly quietMode: boolean;
        readonly source: 'script';
        readonly runMode?: 'build';
        readonly config: (config: UserConfig) => void;
      },
    );
    disableLogger(): void;
    toJSON(): Promise<readonly RenderedPage[]>;
  }
}
