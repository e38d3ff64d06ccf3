import type { Effects } from './effects.js';

/** A line that is written over as work goes on; silent where no terminal is attached or the work is short. */
export interface Progress {
  readonly show: (done: number, of: number, what: string) => void;
  readonly clear: () => void;
}

export function progressOn(effects: Effects): Progress {
  const width = effects.terminalWidth;
  if (width === undefined) return { show: () => {}, clear: () => {} };
  let shown = false;
  return {
    show(done, of, what) {
      const line = `${done} of ${of}  ${what}`.slice(0, Math.max(10, width - 1));
      effects.warn(`\r\u001B[2K${line}`);
      shown = true;
    },
    clear() {
      if (shown) effects.warn('\r\u001B[2K');
      shown = false;
    },
  };
}
