// The script of `growdown form`, out of its source and all it uses, as one text.
import { fileURLToPath } from 'node:url';
import nunjucks from 'nunjucks';
import { rolldown } from 'rolldown';

const at = (name) => fileURLToPath(new URL(`../form/one-file/in-browser/${name}`, import.meta.url));

/** The door to `shared/` leads to the page's own data there, and nothing of Node is let in, nor what reads case files. */
const inBrowser = {
  name: 'in-browser',
  resolveId(id) {
    if (id.endsWith('/read-shared.js')) return at('read-shared-here.ts');
    if (id.endsWith('.njk')) return at(`../../../../layouts/parts/${id}`);
    if (/^(?:node:|yaml$|js-yaml$)/.test(id)) throw new Error(`${id} has no place in a browser`);
    return undefined;
  },
  load: (id) => (id.endsWith('.njk') ? { code: macrosOf(id), moduleType: 'js' } : undefined),
};

/** The macros of a template as functions, as strict as `renderTemplate` has them: the page compiles nothing. */
function macrosOf(file) {
  const opts = { autoescape: true, throwOnUndefined: true, trimBlocks: true, lstripBlocks: true };
  const env = new nunjucks.Environment(null, opts);
  const code = nunjucks.precompile(file, { name: 'form.njk', env, wrapper: ([{ template }]) => template });
  return `import runtime from 'nunjucks/src/runtime.js';
    const macros = {};
    const context = {
      addExport() {},
      setVariable(name, macro) { macros[name] = macro; },
      lookup: (name) => macros[name],
    };
    const done = (wrong) => { if (wrong) throw wrong; };
    (() => { ${code} })().root({ opts: ${JSON.stringify(opts)} }, context, new runtime.Frame(), runtime, done);
    export default macros;`;
}

/** Minified: the file goes by mail. The same sources give the same text. */
export async function bundleForm() {
  // A table nobody asks for is not read, and so need not be on the page.
  const treeshake = { manualPureFunctions: ['readShared', 'readNumbers'], propertyReadSideEffects: false };
  const bundle = await rolldown({
    input: at('main.ts'),
    platform: 'browser',
    plugins: [inBrowser],
    treeshake,
  });
  const { output } = await bundle.generate({ format: 'iife', minify: true });
  await bundle.close();
  return output[0].code;
}
