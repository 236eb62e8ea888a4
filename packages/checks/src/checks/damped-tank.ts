import { tunedAt } from '@setwright/analysis';
import type { Finding, Part } from '@setwright/circuit';
import { formatQuantity } from '@setwright/units';
import type { Check } from '../check.ts';
import { overEveryPosition } from '../radio/radio-positions.ts';
import { type SignalCircuit, signalCircuits } from '../radio/signal-circuits.ts';
import type { Study } from '../study.ts';
import { alsoPart, finding, listed } from '../words/finding.ts';

/** A tuned circuit with less Q than this is hardly one. */
const LEAST_Q = 10;

/** A resistor inside a tuned circuit that spoils it. */
export const dampedTank: Check = {
  id: 'damped-tank',
  group: 'Radio frequency',
  severity: 'warning',
  summary:
    'A resistor inside a tuned circuit, in series with its coil and condenser, that leaves it a Q below 10.',
  why: 'The circuit no longer tunes: deaf, and every station at once. A losser belongs between the circuit and the grid.',
  silent: [
    'What another position of a switch, selector or jack cures is only information.',
    'A resistor between the tuned circuit and the grid, where it damps a little and on purpose.',
    'A resistor that leaves a Q of 10 or more in the middle of the band.',
    'The aerial’s own resistance, and a resistor in the aerial’s lead.',
    'Intermediate and untuned transformers.',
    'A rheostat or potentiometer as volume control: it can be turned out.',
    'A coil of which not enough is said.',
  ],
  source: 'definition of Q; threshold: common practice',
  needsWholeText: true,
  fails: set('rotor to GND stator to R1.finish'),
  passes: set('rotor to GND stator to L1.grid.finish'),
  find: (study) => overEveryPosition(study, findAt),
};

function findAt(study: Study): readonly Finding[] {
  return signalCircuits(study).flatMap((each) => {
    const inside = each.tuned.inside.filter(({ kind }) => kind === 'resistor');
    if (each.use === 'intermediate' || inside.length === 0) return [];
    if (inside.length < each.tuned.inside.length || carriesAerial(study, inside)) return [];
    return damped(study, each, inside) ?? [];
  });
}

/** Whether one of the resistors hangs on an aerial's post. */
function carriesAerial(study: Study, inside: readonly Part[]): boolean {
  const posts = new Set(
    study.circuit.parts.flatMap((part) =>
      part.kind === 'post' && part.words.has('aerial') ? part.ends.map((end) => end.junction) : [],
    ),
  );
  return inside.some((part) => part.ends.some(({ junction }) => posts.has(junction)));
}

function damped(
  study: Study,
  { tuned }: SignalCircuit,
  inside: readonly Part[],
): Finding | undefined {
  const { circuit } = study;
  const { lowest, highest } = tuned;
  if (lowest.value === undefined || highest.value === undefined) return undefined;
  const low = Math.max(lowest.value, circuit.tunes?.low.value ?? 0);
  const high = Math.min(highest.value, circuit.tunes?.high.value ?? highest.value);
  const middle = Math.sqrt(low * Math.max(low, high));
  const { q, reactance } = tunedAt(tuned, middle);
  if (q.value === undefined || reactance.value === undefined || q.value >= LEAST_Q)
    return undefined;
  const sizes = inside.map(
    ({ name, values }) =>
      `${name} of ${formatQuantity(values.resistance?.value ?? 0, 'resistance')}`,
  );
  const names = inside.map(({ name }) => name);
  const [first] = inside;
  const coil = circuit.partNamed.get(tuned.windings[0]?.edge.part ?? '');
  const top = coil ? `${coil.name}.finish` : 'the top of the coil';
  return finding({
    check: 'damped-tank',
    severity: 'warning',
    message: `${listed(sizes)} ${names.length > 1 ? 'stand' : 'stands'} inside the tuned circuit of ${tuned.name} and leaves it a Q of ${formatQuantity(q.value, 'number', 'period', 2)} at ${formatQuantity(middle, 'frequency')}.`,
    why: `Coil and condenser have ${formatQuantity(reactance.value, 'resistance', 'period', 2)} each there; with this in series the circuit hardly tunes.`,
    cure: `Join ${tuned.tuner ?? 'the condenser'} straight to ${coil?.name ?? 'the coil'} and put ${listed(names)} between ${top} and the grid.`,
    place: first?.place ?? circuit.namePlace,
    related: coil ? [alsoPart(coil, 'the coil of the circuit')] : [],
    parts: names,
  });
}

function set(ends: string): string {
  return `receiver "Long Mole" {
  tunes 550 kc to 1500 kc
  battery A storage {
    tap A- 0 V
    tap A+ 6 V
  }
  battery B dry {
    tap B-
    tap B+45 45 V
  }
  post ANT aerial 250 mmfd
  post GND ground
  wire B- to A- to GND
  rheostat RH1 20 ohms from A- set 4 ohms
  detector stage DET {
    coil L1 {
      form 2 3/4 in
      winding aerial 10 turns of 26 DCC from GND to ANT
      winding grid 56 turns of 26 DCC beside aerial spaced 1/4 in from GND
    }
    resistor R1 600 ohms from L1.grid.finish
    condenser C1 variable 14 to 365 mmfd ${ends}
    condenser C2 .00025 mfd from R1.finish to V1.grid
    leak R2 2 meg from V1.grid to A+
    tube V1 01-A {
      filament from RH1 to A+
    }
    condenser C3 .001 mfd from V1.plate to A-
    phones PH1 2000 ohms from V1.plate to B+45
  }
}
`;
}
