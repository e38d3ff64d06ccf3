/**
 * What is asked of a page from inside the browser, as text: the browser runs it, the type check has no page to
 * check it against.
 */
export const inPage = {
  unfold: `document.querySelectorAll('details').forEach((fold) => (fold.open = true));
    document.querySelectorAll('input.unfold').forEach((fold) => (fold.checked = true))`,

  width: `document.documentElement.scrollWidth`,

  bodyMargin: `getComputedStyle(document.body).marginTop`,

  /** Elements that reach out of a column so many pixels wide, or hide a part of what they hold. */
  outOfColumn: (column: number): string => `
    [...document.querySelectorAll('main *:not(svg *)')].filter((element) => {
      const box = element.getBoundingClientRect();
      const hides = getComputedStyle(element).overflowX !== 'visible' && element.clientWidth > 1 && element.scrollWidth > element.clientWidth + 1;
      return box.width > 0 && (box.right > ${column} + 1 || box.left < -1 || (hides && element instanceof HTMLElement));
    }).map((element) => element.outerHTML.slice(0, 160))`,

  /** Pictures that are not shown. */
  picturesNotShown: `[...document.images].filter((one) => !one.complete || one.naturalWidth === 0).map((one) => one.alt)`,

  /**
   * What is printed, in print media: the text of every part that may not be split between two sheets; the headings
   * and the start of what follows each; each animal's number, how her sheet
   * begins and her status; every word; how many figures there are. Text of drawings without their title
   * and description, which are not drawn.
   */
  printed: `(() => {
    const main = document.querySelector('main');
    const isShown = (element) => element.checkVisibility();
    // A text with an edge of another colour is drawn twice, edge and letters.
    const timesDrawn = (own) => (own.closest('svg') && getComputedStyle(own).stroke !== 'none' ? 2 : 1);
    const times = new Map();
    const texts = [];
    const walker = document.createTreeWalker(main, NodeFilter.SHOW_TEXT);
    for (let node = walker.nextNode(); node; node = walker.nextNode()) {
      const own = node.parentElement;
      if (!times.has(own))
        times.set(own, own.closest('title, desc, style, script') || !isShown(own) ? 0 : timesDrawn(own));
      if (times.get(own) > 0 && node.textContent.trim() !== '')
        texts.push({ node, text: (node.textContent + ' ').repeat(times.get(own)) });
    }
    const places = new Map(texts.map(({ node }, at) => [node, at]));
    /** Texts of an element are beside each other: the first of them, and the one after the last. */
    const span = (element) => {
      const inside = document.createTreeWalker(element, NodeFilter.SHOW_TEXT);
      let [first, end] = [-1, -1];
      for (let node = inside.nextNode(); node; node = inside.nextNode())
        if (places.has(node)) [first, end] = [first < 0 ? places.get(node) : first, places.get(node) + 1];
      return [first, end];
    };
    const said = ([first, end]) => texts.slice(Math.max(first, 0), end < 0 ? 0 : end).map(({ text }) => text).join('');
    const whole = 'tr, figure, li, dl > div, .act, .sign';
    const parts = [...main.querySelectorAll(whole)]
      .filter((element) => !element.parentElement.closest(whole))
      .map((element) => said(span(element)));
    const headings = [...main.querySelectorAll('h1, h2, h3, h4, h5')].filter(isShown);
    return {
      parts,
      headings: headings.map((heading) => heading.textContent.trim().replaceAll(/\\s+/g, ' ')),
      next: headings.map((heading) => {
        // Beneath it are lines to write on, and no text.
        if (heading.closest('.write')) return '';
        const [, end] = span(heading);
        return said([end, end + 4]).slice(0, 12);
      }),
      cases: [...main.querySelectorAll('article.cow')].map((one) => ({
        number: one.querySelector('h2').textContent.trim(),
        start: said(span(one)).slice(0, 80),
        stands: one.querySelector('.cow-stands').textContent.trim(),
      })),
      words: [...new Set(said([0, texts.length]).split(/\\s+/))],
      figures: [...main.querySelectorAll('figure, svg, img')].filter(isShown).length,
    };
  })()`,
};
