import type { Finding } from '@setwright/circuit';
import type { LayoutEngine, LayoutMemory } from '@setwright/diagram';
import type { UnitStyle } from '@setwright/report';
import type { Page, PartFinding } from '@setwright/webview';
import type { Snapshot } from '../../text/snapshot.ts';

/** The package that draws, which is large and so loaded when first wanted. */
export type Draughtsman = typeof import('@setwright/diagram');

/** What drawing needs besides the set. */
export interface Drawings {
  readonly draughtsman: () => Promise<Draughtsman>;
  /** Layouts made before, which a small change of a text leaves as they are. */
  readonly memory: LayoutMemory;
  readonly engine: (draughtsman: Draughtsman) => LayoutEngine;
}

/** What pages are made from. */
export interface PageSource {
  readonly snapshot: Snapshot;
  readonly lastWhole: Snapshot | undefined;
  /** Findings as they are told, with the severity that the settings give them. */
  readonly findings: readonly Finding[];
  readonly units: UnitStyle;
  readonly drawings: Drawings;
}

/** The parts of a page that differ from one to another. */
export type PageBody = Pick<
  Page,
  'svg' | 'tables' | 'notes' | 'parts' | 'views' | 'view' | 'steps'
>;

/** A page with nothing but words. */
export function wordsOnly(...notes: readonly string[]): PageBody {
  return { svg: undefined, tables: [], notes, parts: {}, views: [], view: 'whole' };
}

/** Findings of a receiver by the parts that they speak of. */
export function findingsByPart(
  { snapshot, findings }: PageSource,
  receiver: number,
): ReadonlyMap<string, readonly PartFinding[]> {
  const found = new Map<string, PartFinding[]>();
  for (const { place, parts, severity, message } of findings) {
    if (snapshot.names.receiverAt(place.start) !== receiver) continue;
    for (const part of parts) {
      const list = found.get(part);
      if (list) list.push({ severity, message });
      else found.set(part, [{ severity, message }]);
    }
  }
  return found;
}
