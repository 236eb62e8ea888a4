import type { Circuit } from '@setwright/circuit';
import { bothStates } from '@setwright/compare';
import type { MarkedPart, MarkKind, Overlay } from '@setwright/diagram';
import type { ComparedReceiver } from './compared.ts';
import type { Sentence } from './sentence.ts';

/** Both states of a set as one, and what to draw over it. */
export interface MarkedSet {
  readonly circuit: Circuit;
  readonly overlay: Overlay;
}

const kinds: Readonly<Partial<Record<Sentence['kind'], MarkKind>>> = {
  removed: 'removed',
  added: 'added',
  changed: 'changed',
  moved: 'changed',
};

/** Both states of a set on one drawing: what is gone, new and changed marked. */
export function markedSet(set: ComparedReceiver): MarkedSet {
  const overlay = { id: 'compare', parts: undefined, paths: [], failed: [], changed: [] } as const;
  if ('summary' in set)
    return {
      circuit: set.circuit,
      overlay: {
        ...overlay,
        title: set.status === 'new' ? 'This set is new' : 'This set is gone',
        notes: [],
      },
    };
  const { old, now, differences, sentences } = set;
  const { circuit, goneAs, nowAs } = bothStates(old, now, differences);
  const marked = new Map<string, MarkedPart>();
  for (const { kind: told, brief, before, after } of sentences) {
    const kind = kinds[told];
    if (!kind) continue;
    const names = [...before.flatMap((name) => goneAs.get(name) ?? []), ...after.map(nowAs)];
    for (const at of names) {
      const part = circuit.partNamed.get(at) ?? circuit.partOfEnd.get(at);
      // A winding of a coil that is new or gone itself is marked with it.
      const isInner = part?.owner !== undefined && names.includes(part.owner);
      if (!part || isInner) continue;
      const known = marked.get(at);
      const words = [known?.words, brief].filter((each) => each).join('; ');
      marked.set(at, { at, kind: known?.kind ?? kind, words });
    }
  }
  return {
    circuit,
    overlay: {
      ...overlay,
      title: 'What has changed',
      marked: [...marked.values()],
      notes: marked.size === 0 ? ['Nothing that is on the drawing has changed.'] : [],
    },
  };
}
