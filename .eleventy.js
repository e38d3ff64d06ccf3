/**
 * Eleventy as the engine of the book: its only input is `layouts/`, and the page data come finished from `src/book`.
 * The cases folder is never its input: a template engine must not read what users write.
 */
export default function (config) {
  config.setUseGitIgnore(false);
  config.setQuietMode(true);
  config.setNunjucksEnvironmentOptions({
    autoescape: true,
    throwOnUndefined: true,
    trimBlocks: true,
    lstripBlocks: true,
  });
  return {
    dir: { input: 'layouts', includes: 'parts', data: 'no-data-files' },
    templateFormats: ['njk'],
    markdownTemplateEngine: false,
    htmlTemplateEngine: false,
  };
}
