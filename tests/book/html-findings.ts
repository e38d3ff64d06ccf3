import { HtmlValidate, type RuleConfig } from 'html-validate';

/**
 * What html-validate finds in a page by all it recommends, one line a finding. `long-title` counts letters for search
 * engines, which never see these pages.
 */
export async function htmlFindings(html: string, rules: RuleConfig = {}): Promise<string[]> {
  const validator = new HtmlValidate({
    extends: ['html-validate:recommended'],
    rules: { 'long-title': 'off', ...rules },
  });
  const { results } = await validator.validateString(html);
  return results.flatMap(({ messages }) =>
    messages.map(({ ruleId, message, line }) => `${ruleId} ${line}: ${message}`),
  );
}

/** What is wrong with a page's outline: headings but one of the first level, and each that skips a level. */
export function outlineFaults(html: string): string[] {
  const levels = [...html.matchAll(/<h([1-6])[ >]/g)].map((match) => Number(match[1]));
  const first = levels.filter((level) => level === 1).length;
  return [
    ...(first === 1 ? [] : [`${first} headings of the first level`]),
    ...levels.flatMap((level, at) =>
      at > 0 && level > levels[at - 1]! + 1 ? [`h${level} after h${levels[at - 1]}`] : [],
    ),
  ];
}
