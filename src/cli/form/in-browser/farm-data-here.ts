import type { FarmData } from '../../../form/one-file/farm-data.js';

/** What the page carries beside its script, as inert JSON. */
export const farmData = JSON.parse(document.getElementById('farm')?.textContent ?? '') as FarmData;
