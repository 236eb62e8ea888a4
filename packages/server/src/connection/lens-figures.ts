import { type BandFigures, bandFigures } from '../features/band-figures.ts';
import type { Snapshot } from '../text/snapshot.ts';
import type { Documents } from '../work/documents.ts';

/** Gain and stability for the lenses, reckoned when nobody types. */
export interface LensFigures {
  /** What is known by now, from this version of the text or from the last one that was reckoned. */
  readonly of: (snapshot: Snapshot) => (receiver: number) => BandFigures | undefined;
  /** Reckons them when there is time, unless they are known. */
  readonly want: (uri: string) => void;
  readonly forget: (uri: string) => void;
}

/** Reckoning more tubes than this takes too long for a lens. */
const MOST_TUBES = 12;

interface Known {
  readonly version: number;
  /** By the title of the receiver and its number among those of the same title. */
  readonly figures: readonly {
    readonly title: string;
    readonly figures: BandFigures | undefined;
  }[];
}

/** @param ready told when lenses are out of date @param wait milliseconds without an edit */
export function lensFiguresFor(
  documents: Documents,
  wait: number,
  pause: () => Promise<void>,
  ready: () => void,
): LensFigures {
  const known = new Map<string, Known>();
  const waiting = new Map<string, number>();
  const reckon = async (uri: string, version: number): Promise<void> => {
    await documents.settled(uri);
    if (!(await documents.quiet(uri, wait))) return;
    const snapshot = documents.get(uri)?.snapshot;
    if (!snapshot || snapshot.version !== version) return;
    const figures: Known['figures'][number][] = [];
    for (const circuit of snapshot.file.circuits) {
      await pause();
      if (documents.get(uri)?.snapshot !== snapshot) return;
      const tubes = circuit.parts.filter(({ kind }) => kind === 'tube').length;
      figures.push({
        title: circuit.title,
        figures: tubes === 0 || tubes > MOST_TUBES ? undefined : bandFigures(circuit),
      });
    }
    known.set(uri, { version, figures });
    ready();
  };
  return {
    of({ uri, file }) {
      const found = known.get(uri)?.figures ?? [];
      return (receiver) => {
        const title = file.circuits[receiver]?.title;
        const same = found[receiver]?.title === title ? found[receiver] : undefined;
        return (same ?? found.find((each) => each.title === title))?.figures;
      };
    },
    want(uri) {
      const version = documents.get(uri)?.snapshot.version;
      if (version === undefined || known.get(uri)?.version === version) return;
      if (waiting.get(uri) === version) return;
      waiting.set(uri, version);
      void reckon(uri, version).finally(() => {
        if (waiting.get(uri) === version) waiting.delete(uri);
      });
    },
    forget(uri) {
      known.delete(uri);
    },
  };
}
