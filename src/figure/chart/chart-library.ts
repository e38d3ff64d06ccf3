import { createRequire } from 'node:module';
import type * as Library from 'chart.js';

let loaded: typeof Library | undefined;

/** Chart.js with the parts our charts use; loaded when the first chart is drawn, so that nothing else waits for it. */
export function chartLibrary(): typeof Library {
  if (loaded) return loaded;
  const library = withoutReadyPaths(() => createRequire(import.meta.url)('chart.js') as typeof Library);
  const {
    BarController,
    BarElement,
    CategoryScale,
    LineElement,
    LinearScale,
    PointElement,
    ScatterController,
  } = library;
  library.Chart.register(
    BarController,
    BarElement,
    CategoryScale,
    LineElement,
    LinearScale,
    PointElement,
    ScatterController,
  );
  return (loaded = library);
}

/** Where the world offers ready-made paths, Chart.js hands those over instead of drawing: a recorder sees nothing of them. */
function withoutReadyPaths<T>(load: () => T): T {
  const world = globalThis as { Path2D?: unknown };
  const offered = world.Path2D;
  if (offered === undefined) return load();
  delete world.Path2D;
  try {
    return load();
  } finally {
    world.Path2D = offered;
  }
}
