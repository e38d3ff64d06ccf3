// The script of `growdown form`, out of its source and all it uses, as one text.
import { readdirSync, readFileSync } from 'node:fs';
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
  return `${noticesOf(output[0].moduleIds)}\n${output[0].code}`;
}

/** The licences of the packages that are in it, as one comment: their notices go wherever they go. */
function noticesOf(modules) {
  const folders = modules.flatMap(
    (id) => /^.*\/node_modules\/(?:@[^/]+\/)?[^/]+/.exec(id.replaceAll('\\', '/'))?.[0] ?? [],
  );
  const notices = [...new Set(folders)]
    .toSorted((a, b) => (a < b ? -1 : 1))
    .map((folder) => {
      const { name, version } = JSON.parse(readFileSync(`${folder}/package.json`, 'utf8'));
      const licence = readdirSync(folder).find((file) => /^licen[cs]e/i.test(file));
      if (licence === undefined) throw new Error(`${name} has no licence to carry along`);
      return `${name} ${version}\n${readFileSync(`${folder}/${licence}`, 'utf8').trim()}`;
    });
  return `/*\n${notices.join('\n\n')}\n*/`;
}
