/** A visit on this page: what was filled in, and its text once it is written down. */
export interface PageVisit {
  readonly id: string;
  /** Her file on the farm; `+` where her case is to be opened. */
  readonly slug: string;
  readonly values: readonly (readonly [name: string, given: readonly string[]])[];
  /** Absent while it is only begun, and after a change. */
  readonly written?: { readonly text: string; readonly day: string };
}

/** The visits on this page, oldest first, and whether the browser keeps them. */
export interface KeptVisits {
  readonly isKept: () => boolean;
  readonly all: () => readonly PageVisit[];
  readonly put: (visit: PageVisit) => void;
  readonly remove: (ids: readonly string[]) => void;
}

/**
 * Visits kept by the browser, each under a key of its own so that two windows of one form lose none of each other's.
 *
 * Whether a page opened as a file may keep anything differs from browser to browser, so it is tried; where it may not,
 * or no room is left, the visits live as long as the page.
 */
export function keptVisits(farm: string): KeptVisits {
  const prefix = `growdown form 1 ${farm} `;
  const inMemory = new Map<string, PageVisit>();
  let kept = tries(() => {
    localStorage.setItem(`${prefix}try`, 'try');
    const same = localStorage.getItem(`${prefix}try`) === 'try';
    localStorage.removeItem(`${prefix}try`);
    return same;
  });
  const read = (): void => {
    if (!kept) return;
    inMemory.clear();
    const keys = Array.from({ length: localStorage.length }, (_, at) => localStorage.key(at) ?? '');
    for (const key of keys.filter((one) => one.startsWith(prefix)).toSorted()) {
      const visit = parsed(localStorage.getItem(key) ?? '');
      if (visit) inMemory.set(visit.id, visit);
    }
  };
  return {
    isKept: () => kept,
    all: () => {
      read();
      return [...inMemory.values()];
    },
    put: (visit) => {
      inMemory.set(visit.id, visit);
      kept &&= tries(() => {
        localStorage.setItem(prefix + visit.id, JSON.stringify(visit));
        return true;
      });
    },
    remove: (ids) => {
      for (const id of ids) {
        inMemory.delete(id);
        if (kept) localStorage.removeItem(prefix + id);
      }
    },
  };
}

function tries(act: () => boolean): boolean {
  try {
    return act();
  } catch {
    return false;
  }
}

/** What an older form, or somebody else, has left under our key is passed over. */
function parsed(text: string): PageVisit | undefined {
  try {
    const visit = JSON.parse(text) as PageVisit;
    return typeof visit.id === 'string' && typeof visit.slug === 'string' && Array.isArray(visit.values)
      ? visit
      : undefined;
  } catch {
    return undefined;
  }
}
