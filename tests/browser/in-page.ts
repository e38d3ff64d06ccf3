/**
 * What is asked of a page from inside the browser, as text: the browser runs it, the type check has no page to
 * check it against.
 */
export const inPage = {
  unfold: `document.querySelectorAll('details').forEach((fold) => (fold.open = true))`,

  width: `document.documentElement.scrollWidth`,

  bodyMargin: `getComputedStyle(document.body).marginTop`,

  /** Elements that reach out of a column so many pixels wide, or hide a part of what they hold. */
  outOfColumn: (column: number): string => `
    [...document.querySelectorAll('main *:not(svg *)')].filter((element) => {
      const box = element.getBoundingClientRect();
      const hides = getComputedStyle(element).overflowX !== 'visible' && element.scrollWidth > element.clientWidth + 1;
      return box.width > 0 && (box.right > ${column} + 1 || box.left < -1 || (hides && element instanceof HTMLElement));
    }).map((element) => element.outerHTML.slice(0, 160))`,

  /** The text of every smallest block that is printed. */
  blocks: `
    [...document.querySelectorAll('main :is(p, li, th, td, dt, dd, h2, h3, caption)')]
      .filter((element) => !element.closest('.back, .on-screen') && !element.querySelector('p, li, dl, svg'))
      .map((element) => element.textContent)`,
};

/** Runs axe, which must be loaded, over the whole page and gives one line a finding. */
export function axeOver(rules: unknown): string {
  return `axe.run(document, { resultTypes: ['violations'], runOnly: ${JSON.stringify(rules)} })
    .then(({ violations }) => violations.map(({ id, nodes }) => id + ': ' + nodes[0].html.slice(0, 200) + ' (' + nodes.length + ')'))`;
}
