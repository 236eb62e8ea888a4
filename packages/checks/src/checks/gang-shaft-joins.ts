import type { Circuit, Finding, Place } from '@setwright/circuit';
import type { Check } from '../check.ts';
import type { Study } from '../study.ts';
import { regionsOf } from '../wiring/regions.ts';
import { type Rotor, shaftsOf } from '../wiring/shafts.ts';
import { alsoPart, finding, listed, nameOf } from '../words/finding.ts';

/** Condensers on one shaft whose rotors are on different junctions. */
export const gangShaftJoins: Check = {
  id: 'gang-shaft-joins',
  group: 'Wiring',
  severity: 'warning',
  summary: 'Condensers on one shaft whose rotors are drawn on different junctions.',
  why: 'A metal shaft joins its rotors, whatever the drawing says: what they are on is tied together.',
  silent: [
    'A condenser said to be `insulated` from the shaft.',
    'Rotors on one junction; the stators are always on different ones.',
    'A condenser of which the text does not say which side is the rotor.',
    'Rotors that a wire joins anyway.',
    'Where a dial drives condensers that are in no gang, belts or gears may part them: information.',
  ],
  source: 'common practice',
  needsWholeText: false,
  fails: setWith('NEG'),
  passes: setWith('GND'),
  find(study) {
    const { circuit } = study;
    const shafts = shaftsOf(circuit);
    const found = shafts.flatMap(({ gang, rotors }) =>
      gang ? parted(study, gang.name, gang.place, rotors, true) : [],
    );
    const driven = circuit.dials.flatMap((dial) => {
      const on = shafts.filter((shaft) => shaft.dial === dial);
      const alone = on.filter(({ gang }) => !gang);
      if (alone.length === 0) return [];
      return parted(
        study,
        dial.name,
        dial.place,
        on.flatMap(({ rotors }) => rotors),
        false,
      );
    });
    return [...found, ...driven];
  },
};

function parted(
  study: Study,
  shaft: string,
  place: Place,
  rotors: readonly Rotor[],
  isGang: boolean,
): Finding[] {
  const { circuit } = study;
  if (new Set(rotors.map(({ rotor }) => rotor.junction)).size < 2) return [];
  const wired = regionsOf(
    study.conduction,
    ({ part }) => circuit.partNamed.get(part)?.kind === 'lead',
  );
  const groups = new Map<number, Rotor[]>();
  for (const each of rotors) {
    const region = wired[each.rotor.junction] ?? -1;
    groups.set(region, [...(groups.get(region) ?? []), each]);
  }
  // The largest group keeps the shaft; the first of equals.
  const [keeps, ...others] = [...groups.values()].sort((a, b) => b.length - a.length);
  if (!keeps || others.length === 0) return [];
  const stray = others.flat();
  const spots = [keeps, ...others].map(
    (group) => `${listed(group.map(({ condenser }) => condenser.name))} on ${spot(circuit, group)}`,
  );
  const names = stray.map(({ condenser }) => condenser.name);
  return [
    finding({
      check: 'gang-shaft-joins',
      severity: isGang ? 'warning' : 'information',
      message: `${isGang ? `The shaft of ${shaft}` : `${shaft}, if it drives them by one metal shaft,`} joins rotors that are drawn apart: ${listed(spots)}.`,
      why: 'A metal shaft joins its rotors whatever the drawing says.',
      cure: `Bring the rotor${names.length > 1 ? 's' : ''} of ${listed(names)} to ${spot(circuit, keeps)}, or drive ${names.length > 1 ? 'them' : 'it'} through an insulated coupling and write insulated on the line of ${listed(names)}.`,
      place,
      related: rotors.map((each) =>
        alsoPart(each.condenser, `its rotor is on ${spot(circuit, [each])}`),
      ),
      parts: rotors.map(({ condenser }) => condenser.name),
      fixes: [
        {
          title: `Say that ${listed(names)} ${names.length > 1 ? 'are' : 'is'} insulated from the shaft`,
          edits: stray.map(({ condenser: { place: line } }) => ({
            place: { ...line, start: line.end },
            text: ' insulated',
          })),
        },
      ],
    }),
  ];
}

/** Where a rotor is, by the name that the text gives to what it is joined to. */
function spot(circuit: Circuit, group: readonly Rotor[]): string {
  const rotor = group[0]?.rotor;
  const said = circuit.joins.find(({ from }) => from === rotor?.id);
  if (said) return nameOf(circuit, said.to);
  return circuit.junctions[rotor?.junction ?? -1]?.name ?? '';
}

function setWith(rotor: string): string {
  return `receiver "Bell buoy" {
  battery A storage {
    tap A- 0 V
    tap A+ 6 V
  }
  battery B dry {
    tap B-
    tap B+67 67.5 V
  }
  post ANT aerial
  post GND ground
  bus NEG
  wire B- to A- to GND
  switch S1 from A- to NEG closed
  rheostat RH1 20 ohms from NEG to V1.filament- set 4 ohms
  radio stage RF {
    coil L1 {
      form 2 3/4 in
      winding aerial 12 turns of 26 DCC from GND to ANT
      winding grid 56 turns of 26 DCC beside aerial spaced 1/4 in from GND
    }
    condenser C1 variable 14 to 365 mmfd rotor to GND stator to L1.grid.finish
    condenser TR1 trimmer 2 to 25 mmfd across C1
    resistor R1 1000 ohms from L1.grid.finish to V1.grid
    tube V1 01-A {
      filament to A+
      plate to L2.plate.start
    }
    condenser C3 .5 mfd from B+67 to NEG
  }
  detector stage DET {
    coil L2 {
      form 2 3/4 in
      winding plate 8 turns of 26 DCC to B+67
      winding secondary 56 turns of 26 DCC beside plate spaced 1/4 in from ${rotor}
    }
    condenser C2 variable 14 to 365 mmfd rotor to ${rotor} stator to L2.secondary.finish
    condenser TR2 trimmer 2 to 25 mmfd across C2
    crystal CR1 from L2.secondary.finish to PH1.start
    phones PH1 2000 ohms from PH1.start to ${rotor}
    condenser C4 .001 mfd across PH1
  }
  gang G1 C1, C2
  dial D1 0 to 100 drives G1
}
`;
}
