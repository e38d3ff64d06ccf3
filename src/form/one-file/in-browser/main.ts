// First of all, before a check is made.
// oxlint-disable-next-line import/no-unassigned-import
import './without-eval.js';
import { farmData } from './farm-data-here.js';
import { drawList } from './draw-list.js';
import { drawText } from './draw-text.js';
import { drawVisit } from './draw-visit.js';
import { focusOn, pageOf } from './page.js';

/** The script of the form in one file. The part of the address behind `#` tells which view is shown, so that going back goes back. */
let done = '';
const page = pageOf(farmData, {
  goTo: (place, says = '') => {
    done = says;
    if (location.hash.slice(1) === place) draw();
    else location.hash = place;
  },
});

function draw(): void {
  drawView();
  scrollTo(0, 0);
  focusOn('h1');
  done = '';
}

function drawView(): void {
  const [, kind = '', named = ''] = /^#?(\w*)=?(.*)$/.exec(decodeURIComponent(location.hash)) ?? [];
  const visits = page.visits.all();
  const chosen = kind === 'v' ? visits.find(({ id }) => id === named) : undefined;
  const animal = page.animalOf(chosen?.slug ?? named);
  if (kind === 'text') return drawText(page);
  if (!animal || (kind === 'v' && !chosen)) return drawList(page, done);
  return drawVisit(
    page,
    animal,
    chosen ?? (kind === 'a' ? visits.findLast(({ slug }) => slug === animal.slug) : undefined),
  );
}

addEventListener('hashchange', draw);
// Another window of the same form has written something down.
addEventListener('storage', () => {
  if (!/^#?[anv]=/.test(location.hash)) draw();
});
addEventListener('beforeunload', (event) => {
  if (!page.visits.isKept() && page.visits.all().length > 0) event.preventDefault();
});
draw();
