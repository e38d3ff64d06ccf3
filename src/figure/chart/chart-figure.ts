import type { Figure } from '../figure.js';

/** A chart with its words. Its table is the page's own: the fuller one that stands folded beneath. */
export type ChartFigure = Omit<Figure, 'table'>;
