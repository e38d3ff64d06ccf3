import type { FarmData } from '../farm-data.js';

/** What the page carries beside its script, as inert JSON. */
export const farmData = JSON.parse(document.getElementById('farm')?.textContent ?? '') as FarmData;
