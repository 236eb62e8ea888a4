import type { Circuit } from '@setwright/circuit';
import type { SetValues, UnitStyle } from '@setwright/report';
import type { Snapshot } from '../../text/snapshot.ts';

/** What hovers are made from. */
export interface HoverSource {
  readonly snapshot: Snapshot;
  /** The last version of which every line could be read; its numbers stand in for broken ones. */
  readonly lastWhole: Snapshot | undefined;
  readonly units: UnitStyle;
}

/**
 * The numbers of a set: of the text as it is, of the last text that could be read where this one
 * cannot, or doubtful where there has been none yet.
 */
export interface KnownValues {
  readonly values: SetValues;
  readonly are: 'known' | 'older' | 'doubtful';
}

/**
 * The numbers of a receiver.
 *
 * @param which `values`, or `allValues` with what its stages make of a signal
 */
export function valuesFor(
  { snapshot, lastWhole, units }: HoverSource,
  receiver: number,
  which: 'values' | 'allValues' = 'values',
): KnownValues | undefined {
  const circuit = snapshot.file.circuits[receiver];
  if (!circuit) return undefined;
  const isWhole = circuit.unread.length === 0;
  if (!isWhole && lastWhole) {
    const same = lastWhole.file.circuits.findIndex(({ title }) => title === circuit.title);
    const older = lastWhole[which](same >= 0 ? same : receiver, units);
    if (older) return { values: older, are: 'older' };
  }
  const values = snapshot[which](receiver, units);
  return values && { values, are: isWhole ? 'known' : 'doubtful' };
}

/** The circuit of a receiver. */
export function circuitOf({ snapshot }: HoverSource, receiver: number): Circuit | undefined {
  return snapshot.file.circuits[receiver];
}
