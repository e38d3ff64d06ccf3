/** The part of Eleventy's programmatic interface that the book uses; the package ships no types. */
declare module '@11ty/eleventy' {
  interface UserConfig {
    addNunjucksGlobal(name: string, value: unknown): void;
  }
  export const RenderPlugin: {
    readonly RenderManager: new () => {
      config(change: (config: UserConfig) => void): void;
      compile(template: string, language: 'njk'): Promise<(data: object) => Promise<string>>;
    };
  };
}
