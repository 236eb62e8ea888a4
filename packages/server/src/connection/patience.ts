import type { CancellationToken } from 'vscode-languageserver-protocol';
import type { Documents, OpenDocument } from '../work/documents.ts';
import { notOpen, unlessCancelled } from './answering.ts';

/** Waits until there is time to reckon all numbers of a document, which may take longer than a keystroke. */
export interface Patience {
  /** The document as it is once its findings are known and, if it is large, nobody types. */
  readonly numbers: (uri: string, token: CancellationToken) => Promise<OpenDocument>;
  /** Does the reckoning, and remembers how long it takes. */
  readonly reckon: <T>(uri: string, work: () => T) => T;
}

/** Reckoning that takes less than this many milliseconds disturbs nobody. */
const SHORT = 25;
/** Milliseconds that anybody waits at most for a pause in the typing. */
const LONGEST = 1000;

/** Keeps reckoning out of the way of typing. */
export function patienceWith(documents: Documents): Patience {
  const costs = new Map<string, number>();
  return {
    async numbers(uri, token) {
      for (;;) {
        await documents.settled(uri);
        unlessCancelled(token);
        const cost = costs.get(uri) ?? 0;
        if (cost > SHORT && !(await documents.quiet(uri, Math.min(2 * cost, LONGEST)))) {
          unlessCancelled(token);
          if (documents.get(uri)) continue;
        }
        return documents.get(uri) ?? notOpen(uri);
      }
    },
    reckon(uri, work) {
      const start = performance.now();
      const made = work();
      const took = performance.now() - start;
      // Asked a second time nothing is reckoned: that says nothing of what it costs.
      if (took > 1) costs.set(uri, took);
      return made;
    },
  };
}
