import type { Words } from '../../words/words.js';
import { contentPolicy, hashOf } from '../../book/book-style.js';
import { formStyle } from '../form-style.js';
import { layoutCss } from '../../book/layout-css.js';
import { renderTemplate } from '../../book/render-template.js';
import type { FarmData } from './farm-data.js';

/**
 * The form in one file: the data of a farm as inert JSON, one style and one script, each named by its hash. Nothing else
 * may run, nothing is asked of any network, nothing is sent.
 *
 * Shape:   words, data, the script made by `src/setup/bundle-form` → HTML
 * Error:   a script that would end its own element is a slip of ours and throws
 * Checked: tests/form/one-file-page.test.ts, tests/browser/one-file.test.ts
 */
export function oneFilePage(words: Words, data: FarmData, script: string): string {
  if (/<\/script|<!--/i.test(script))
    throw new Error('the script of the form holds a text that would end it');
  const style = `${formStyle()}\n${layoutCss('one-file.css')}`;
  const policy = contentPolicy(style, `script-src '${hashOf(script)}'; form-action 'none'`);
  return renderTemplate('yard/one-file.njk', {
    language: words.language,
    title: words.say('form.file.title', { farm: data.farm }),
    farm: data.farm,
    needsScripts: words.say('form.file.needs-scripts'),
    policy,
    style,
    data: asInertJson(data),
    script,
  });
}

/** JSON that can end no element and open no comment, whatever stands in a record. @example asInertJson('</script>') // → '"\\u003c/script>"' */
export function asInertJson(data: unknown): string {
  return JSON.stringify(data).replaceAll('<', String.raw`\u003c`);
}
