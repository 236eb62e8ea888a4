import type { Circuit, Part } from '@setwright/circuit';
import { LEAKY_MICA, LEAKY_PAPER, PAPER_FROM } from '../../edits/usual-faults.ts';
import { type CatalogueRow, type FaultSaid, PRACTICE } from '../fault.ts';
import { changed, ohms, opened, said, shorted } from './say.ts';

const turns = (part: Part): boolean => part.kind === 'condenser' && part.words.has('variable');
const trims = (part: Part): boolean =>
  part.kind === 'condenser' && (part.words.has('trimmer') || part.words.has('neutralizing'));
const stands = (part: Part): boolean => part.kind === 'condenser' && !turns(part) && !trims(part);

function isPaper(part: Part): boolean {
  const farads = part.values.capacitance?.value ?? 0;
  return part.words.has('paper') || (!part.words.has('mica') && farads >= PAPER_FROM);
}

/** Ohms across a coupling condenser that already spoil the next tube: it stands before a leak. */
const COUPLING_LEAK = 20e6;

/** From a plate's junction to a grid's, with no winding to hand the signal on instead. */
function couples(part: Part, circuit: Circuit): boolean {
  const on = new Set(part.ends.map(({ junction }) => junction));
  const touches = (end: string): boolean =>
    circuit.parts.some(
      ({ kind, ends }) =>
        kind === 'tube' && ends.some(({ name, junction }) => name === end && on.has(junction)),
    );
  return touches('plate') && touches('grid');
}

/** Condensers of all kinds. */
export const condenserFaults: readonly CatalogueRow[] = [
  {
    kind: 'tuning-condenser',
    source: PRACTICE,
    happensTo: (part) =>
      turns(part)
        ? [
            {
              words: `the plates of ${part.name} touch`,
              edits: shorted(part.name),
              prior: 'very common',
              heard: ['crackles'],
              note: 'Over a part of the turn, as a rule: turn it all the way with an ohmmeter across, a coil lead lifted.',
            },
            {
              words: `the pigtail or bearing of ${part.name} does not connect`,
              edits: opened(part.name),
              prior: 'very common',
            },
            {
              words: `the bearing of ${part.name} is dirty, 50 ohms in it`,
              edits: part.ends[0] ? changed(part.ends[0].id, ohms(50)) : [],
              prior: 'very common',
              heard: ['crackles'],
            },
          ]
        : [],
  },
  {
    kind: 'trimmer',
    source: PRACTICE,
    happensTo: (part) => {
      if (!trims(part)) return [];
      const most = part.ranges.capacitance?.high.value ?? part.values.capacitance?.value;
      const isNeutralizing = part.words.has('neutralizing');
      const out: FaultSaid[] = [
        { words: `${part.name} is open`, edits: opened(part.name), prior: 'rare' },
        { words: `${part.name} is shorted`, edits: shorted(part.name), prior: 'rare' },
      ];
      if (most !== undefined)
        out.unshift({
          words: `${part.name} is out of adjustment, screwed right in`,
          edits: changed(part.name, { value: most, dimension: 'capacitance' }),
          prior: isNeutralizing ? 'very common' : 'common',
        });
      return out;
    },
  },
  {
    kind: 'leaky-condenser',
    source: PRACTICE,
    happensTo: (part, circuit) => {
      if (!stands(part)) return [];
      if (couples(part, circuit))
        return [
          {
            words: `${part.name} leaks, ${said(ohms(COUPLING_LEAK))}`,
            edits: [{ verb: 'leaky', target: part.name, amount: ohms(COUPLING_LEAK) }],
            prior: 'very common',
          },
        ];
      const leak = isPaper(part) ? LEAKY_PAPER : LEAKY_MICA;
      return [
        {
          words: `${part.name} leaks, ${said(ohms(leak))}`,
          edits: [{ verb: 'leaky', target: part.name, amount: ohms(leak) }],
          prior: 'common',
          // Dirt and bad mica are noisy.
          ...(isPaper(part) ? {} : { heard: ['crackles'] }),
        },
      ];
    },
  },
  {
    kind: 'shorted-condenser',
    source: PRACTICE,
    happensTo: (part) =>
      stands(part)
        ? [
            {
              words: `${part.name} is shorted`,
              edits: shorted(part.name),
              prior: isPaper(part) ? 'common' : 'rare',
            },
          ]
        : [],
  },
  {
    kind: 'open-condenser',
    source: PRACTICE,
    happensTo: (part) =>
      stands(part)
        ? [
            {
              words: `${part.name} is open, or somebody has taken it off`,
              edits: opened(part.name),
              prior: 'common',
            },
          ]
        : [],
  },
];
