import { type Conduction, type Finding, type Part, stepFrom } from '@setwright/circuit';
import { type IronTransformer, ironTransformers } from '../audio/iron-transformers.ts';
import { type SignalGroups, signalGroups } from '../audio/signal-groups.ts';
import type { Check } from '../check.ts';
import { partsAt } from '../tubes/tubes.ts';
import { stillPoints } from '../wiring/still-points.ts';
import { alsoPart, finding, listed } from '../words/finding.ts';

/** A driven transformer of which no other winding hands the sound on. */
export const transformerUnloaded: Check = {
  id: 'transformer-unloaded',
  group: 'Audio and ratings',
  severity: 'warning',
  summary: 'A driven audio transformer whose other winding reaches no grid, phones or resistor.',
  why: 'The sound ends in this transformer: nothing is left for what should come after it.',
  silent: [
    'A secondary on a grid: that is load enough.',
    'A second winding that is not used, beside one that is.',
    'A winding that reaches a grid, phones, a loudspeaker or a resistor at some position of a jack or switch.',
    'A winding on a post or in a jack: what is hooked to it is not known.',
    'A transformer that nothing drives.',
    'A winding with an end joined to nothing is the business of `dangling-end`.',
  ],
  source: 'common practice',
  needsWholeText: true,
  fails: setWith('C-4.5'),
  passes: setWith('T2.secondary.finish'),
  find({ circuit, conduction, tubes }) {
    const transformers = ironTransformers(circuit);
    if (transformers.length === 0) return [];
    const groups = signalGroups(conduction, tubes);
    const still = stillPoints(conduction, { contacts: false });
    return transformers.flatMap((transformer) => unloaded(conduction, groups, still, transformer));
  },
};

function unloaded(
  conduction: Conduction,
  groups: SignalGroups,
  still: ReadonlySet<number>,
  { part, windings }: IronTransformer,
): Finding[] {
  const { circuit } = conduction;
  const drivers = (winding: Part): string[] => [
    ...new Set(
      winding.ends.flatMap(({ junction }) => [
        ...(groups.plates.get(groups.of[junction] ?? -1) ?? []).map((tube) => tube.part.name),
        ...partsAt(circuit, junction)
          .filter(({ kind }) => kind === 'crystal')
          .map(({ name }) => name),
      ]),
    ),
  ];
  const driven = windings.find((winding) => drivers(winding).length > 0);
  const others = windings.filter((winding) => winding !== driven);
  if (!driven || others.length === 0) return [];
  const isWired = (winding: Part): boolean =>
    winding.ends
      .filter(({ name }) => name === 'start' || name === 'finish')
      .every(({ junction }) => (circuit.junctions[junction]?.terminals.length ?? 0) > 1);
  const wired = others.filter(isWired);
  if (wired.length === 0 || others.some((winding) => reachesLoad(conduction, still, winding)))
    return [];
  const names = listed(wired.map(({ name }) => name));
  return [
    finding({
      check: 'transformer-unloaded',
      severity: 'warning',
      message: `${names} reach${wired.length > 1 ? '' : 'es'} no grid, phones, loudspeaker or resistor, though ${listed(drivers(driven))} drive${drivers(driven).length > 1 ? '' : 's'} ${part.name}.`,
      why: 'The sound ends in this transformer.',
      cure: `Join an end of ${names} to the grid that it should drive.`,
      place: wired[0]?.place ?? part.place,
      related: [alsoPart(driven, 'this winding is driven')],
      parts: [part.name, ...windings.map(({ name }) => name)],
    }),
  ];
}

/** Whether a winding's circuit holds something for the sound to work on, at any position. */
function reachesLoad(conduction: Conduction, still: ReadonlySet<number>, winding: Part): boolean {
  const { circuit } = conduction;
  const seen = new Set(
    winding.ends.flatMap(({ junction }) => (still.has(junction) ? [] : [junction])),
  );
  for (const here of seen) {
    for (const id of circuit.junctions[here]?.terminals ?? []) {
      const part = circuit.partOfEnd.get(id);
      if (part && isLoad(part, id)) return true;
    }
    for (const branch of conduction.at[here] ?? []) {
      const part = circuit.partNamed.get(branch.part);
      if (!part || isElsewhere(part) || part === winding) continue;
      const isContact = part.contacts.length > 0;
      if (branch.direct.kind === 'blocks' && part.kind !== 'condenser' && !isContact) continue;
      if (isLoadBetween(part)) return true;
      const there = stepFrom(branch, here).junction;
      if (!still.has(there)) seen.add(there);
    }
  }
  // Both its ends may stand still, with the load between the two.
  const [start, finish] = winding.ends;
  return (
    start !== undefined &&
    finish !== undefined &&
    start.junction !== finish.junction &&
    partsAt(circuit, start.junction).some(
      (part) =>
        isLoadBetween(part) && part.ends.some(({ junction }) => junction === finish.junction),
    )
  );
}

function isLoad(part: Part, terminal: string): boolean {
  switch (part.kind) {
    case 'tube':
      return terminal === `${part.name}.grid` || terminal === `${part.name}.plate`;
    case 'post':
      return !part.words.has('ground') && !part.words.has('aerial');
    case 'jack':
      return terminal === `${part.name}.tip` || terminal === `${part.name}.sleeve`;
    default:
      return isLoadBetween(part);
  }
}

function isLoadBetween({ kind }: Part): boolean {
  return (
    kind === 'phones' ||
    kind === 'horn' ||
    kind === 'speaker' ||
    kind === 'resistor' ||
    kind === 'leak' ||
    kind === 'potentiometer' ||
    kind === 'crystal' ||
    kind === 'lamp'
  );
}

function isElsewhere({ kind }: Part): boolean {
  return kind === 'tube' || kind === 'battery' || kind === 'eliminator';
}

function setWith(grid: string): string {
  return `receiver "Harbour office" {
  battery A storage {
    tap A- 0 V
    tap A+ 6 V
  }
  battery B dry {
    tap B-
    tap B+90
  }
  battery C dry {
    tap C+
    tap C-4.5
  }
  post ANT aerial
  post GND ground
  wire B- to A- to C+ to GND
  resistor F1 4 ohms from A+ to V1.filament+
  resistor F2 4 ohms from A+ to V2.filament+
  detector stage DET {
    coil L1 {
      form 3 in
      winding aerial 12 turns of 24 DCC from GND to ANT
      winding secondary 44 turns of 24 DCC beside aerial spaced 1/4 in from GND
    }
    condenser C1 variable 20 to 500 mmfd rotor to GND stator to L1.secondary.finish
    crystal CR1 from L1.secondary.finish to T1.primary.start
    condenser C2 .001 mfd across T1.primary
  }
  audio stage AF1 {
    transformer T1 ratio 1 to 3 {
      winding primary 800 ohms to GND
      winding secondary 5000 ohms from C-4.5 to V1.grid
    }
    tube V1 01-A {
      filament from A-
    }
  }
  output stage AF2 {
    transformer T2 ratio 1 to 3.5 {
      winding primary 800 ohms from V1.plate to B+90
      winding secondary 5000 ohms from C-4.5
    }
    condenser C3 .0001 mfd across T2.secondary
    tube V2 01-A {
      filament from A-
      grid to ${grid}
    }
    phones PH1 2000 ohms from V2.plate to B+90
  }
}
`;
}
