import type { Part } from '@setwright/circuit';
import { type CatalogueRow, type FaultSaid, PRACTICE } from '../fault.ts';
import { changed, ohms, opened, said, shorted } from './say.ts';

/** Ohms up to which a resistor is one of a filament lead, and up to which it is wire. */
const FILAMENT_OHMS = 60;
const WIRE_OHMS = 5000;

function ohmsOf(part: Part): number | undefined {
  return part.values.resistance?.value;
}

/** Leaks and resistors. */
export const resistorFaults: readonly CatalogueRow[] = [
  {
    kind: 'grid-leak',
    source: PRACTICE,
    happensTo: (part) => {
      const value = ohmsOf(part) ?? 2e6;
      if (part.kind !== 'leak') return [];
      return [
        { words: `${part.name} is open`, edits: opened(part.name), prior: 'very common' },
        {
          words: `${part.name} has gone up to ${said(ohms(5 * value))}`,
          edits: changed(part.name, ohms(5 * value)),
          prior: 'very common',
          heard: ['chokes on strong'],
        },
        {
          words: `${part.name} is down to ${said(ohms(value / 10))}`,
          edits: changed(part.name, ohms(value / 10)),
          prior: 'common',
        },
      ];
    },
  },
  {
    kind: 'resistor',
    source: PRACTICE,
    happensTo: (part) => {
      if (part.kind !== 'resistor') return [];
      const value = ohmsOf(part);
      const isWire = value !== undefined && value <= WIRE_OHMS;
      const out: FaultSaid[] = [
        {
          words: `${part.name} is open`,
          edits: opened(part.name),
          prior: isWire ? 'rare' : 'common',
        },
      ];
      if (value === undefined) return out;
      if (value > FILAMENT_OHMS)
        out.push({
          words: `${part.name} has gone up to ${said(ohms(3 * value))}`,
          edits: changed(part.name, ohms(3 * value)),
          prior: 'common',
        });
      if (isWire)
        out.push({
          words: `${part.name} is shorted, or somebody has put a wire across it`,
          edits: shorted(part.name),
          prior: 'common',
        });
      return out;
    },
  },
];
