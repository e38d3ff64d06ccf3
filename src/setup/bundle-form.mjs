// The script of `growdown form`, out of its source and all it uses, as one text.
import { fileURLToPath } from 'node:url';
import { rolldown } from 'rolldown';

const at = (name) => fileURLToPath(new URL(`../form/one-file/in-browser/${name}`, import.meta.url));

/** The door to `shared/` leads to the page's own data there, and nothing of Node is let in. */
const inBrowser = {
  name: 'in-browser',
  resolveId(id) {
    if (id.endsWith('/read-shared.js')) return at('read-shared-here.ts');
    if (id.startsWith('node:')) throw new Error(`${id} has no place in a browser`);
    return undefined;
  },
};

/** Minified: the file goes by mail. The same sources give the same text. */
export async function bundleForm() {
  // A table nobody asks for is not read, and so need not be on the page.
  const treeshake = { manualPureFunctions: ['readShared'], propertyReadSideEffects: false };
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
