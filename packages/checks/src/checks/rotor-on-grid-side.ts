import { type Conduction, type Finding, stepFrom } from '@setwright/circuit';
import type { Check } from '../check.ts';
import { exchanged, type JoinsByTerminal, joinsByTerminal } from '../fixes/exchange.ts';
import type { Study } from '../study.ts';
import { aboveGround } from '../wiring/ground.ts';
import { MOST_SHAFT_VOLTS, type Rotor, shaftsOf } from '../wiring/shafts.ts';
import { stillPoints } from '../wiring/still-points.ts';
import { finding, nameOf } from '../words/finding.ts';

/** A smaller variable, in farads, feels the hand too little to matter. Common practice. */
const LEAST_TUNING_FARADS = 50e-12;
/** A fixed condenser of this many farads holds a point at rest for radio. Common practice. */
const LEAST_BYPASS_FARADS = 250e-12;

/** A tuning condenser with its rotor, and the hand at it, on the live side. */
export const rotorOnGridSide: Check = {
  id: 'rotor-on-grid-side',
  group: 'Radio frequency',
  severity: 'hint',
  summary: 'A tuning condenser with its rotor on the live side and its stator on the quiet one.',
  why: 'Shaft, dial and hand then belong to the tuned circuit: the station moves when the hand comes near.',
  silent: [
    'Both sides are live: a series aerial condenser, a loop, a balancing or feedback condenser.',
    'A variable of less than 50 mmfd.',
    'A condenser said to be `insulated` from its shaft.',
    'A condenser of which the text does not say which side is the rotor.',
    'A rotor that a condenser holds at rest for radio.',
    'A trimmer, which is set with a tool.',
    'A rotor more than 30 volts from ground is the business of `dial-shaft-live`.',
  ],
  source: 'common practice',
  needsWholeText: false,
  fails: setWith('rotor to L1.secondary.finish stator to GND'),
  passes: setWith('rotor to GND stator to L1.secondary.finish'),
  find(study) {
    const { circuit, conduction } = study;
    const rotors = shaftsOf(circuit).flatMap((shaft) => (shaft.gang ? [] : shaft.rotors));
    if (rotors.length === 0) return [];
    const ground = stillPoints(conduction);
    const joins = joinsByTerminal(circuit);
    const voltsOf = aboveGround(study, study.solved);
    const isQuiet = (junction: number): boolean =>
      ground.has(junction) || isBypassed(conduction, ground, junction);
    return rotors
      .filter(({ condenser }) => {
        const farads =
          condenser.ranges.capacitance?.high.value ?? condenser.values.capacitance?.value;
        return farads === undefined || farads >= LEAST_TUNING_FARADS;
      })
      .filter(({ rotor, stator }) => isQuiet(stator.junction) && !isQuiet(rotor.junction))
      .filter(({ rotor }) => Math.abs(voltsOf(rotor.id) ?? 0) <= MOST_SHAFT_VOLTS)
      .map((each) => live(study, joins, each));
  },
};

function isBypassed(
  conduction: Conduction,
  ground: ReadonlySet<number>,
  junction: number,
): boolean {
  return (conduction.at[junction] ?? []).some((branch) => {
    const part = conduction.circuit.partNamed.get(branch.part);
    if (part?.kind !== 'condenser' || part.ranges.capacitance || part.words.has('variable'))
      return false;
    const farads = part.values.capacitance?.value ?? LEAST_BYPASS_FARADS;
    return farads >= LEAST_BYPASS_FARADS && ground.has(stepFrom(branch, junction).junction);
  });
}

function live(study: Study, joins: JoinsByTerminal, { condenser, rotor, stator }: Rotor): Finding {
  const { circuit } = study;
  const edits = exchanged(circuit, rotor, stator, joins);
  const said = joins.at(rotor.id).find(({ from }) => from === rotor.id);
  const on = said
    ? nameOf(circuit, said.to)
    : (circuit.junctions[rotor.junction]?.name ?? 'the live side');
  return finding({
    check: 'rotor-on-grid-side',
    severity: 'hint',
    message: `The rotor of ${condenser.name} is on ${on}, the live side of its circuit, and the stator on the quiet one.`,
    why: 'The hand at the dial then detunes the circuit.',
    cure: `Exchange rotor and stator of ${condenser.name}.`,
    place: condenser.place,
    parts: [condenser.name],
    fixes: edits ? [{ title: `Exchange rotor and stator of ${condenser.name}`, edits }] : [],
  });
}

function setWith(ends: string): string {
  return `receiver "Landing light" {
  post ANT aerial
  post GND ground
  coil L1 {
    form 3 in
    winding aerial 30 turns of 24 DCC from GND to ANT
    winding secondary 44 turns of 24 DCC beside aerial spaced 1 in from GND
  }
  condenser C1 variable 20 to 500 mmfd ${ends}
  crystal CR1 from L1.secondary.finish to PH1.start
  condenser C2 .001 mfd across PH1
  phones PH1 2000 ohms from PH1.start to GND
}
`;
}
