import type { Circuit, Finding, Part } from '@setwright/circuit';
import type { Check } from '../check.ts';
import type { TubeAt } from '../tubes/tubes.ts';
import { finding, listed } from '../words/finding.ts';

/** A gas detector in an amplifier's socket. */
export const gasTubeMisplaced: Check = {
  id: 'gas-tube-misplaced',
  group: 'Audio and ratings',
  severity: 'warning',
  summary: 'A gas detector tube in a stage that amplifies.',
  why: 'At an amplifier’s plate voltage its gas ionizes: it glows blue, roars and passes a current that nothing limits.',
  silent: [
    'A tube whose stage detects, a reflex stage or a mixer among them.',
    'A tube about which a `note` follows or names it.',
    'A tube that stands in no stage: what it is for is not said.',
    'A hard tube, whatever it does.',
  ],
  source: 'common practice',
  needsWholeText: false,
  fails: setWith('00-A'),
  passes: setWith('01-A'),
  find({ circuit, tubes }) {
    return tubes
      .filter(({ part, roles }) => part.tubeType?.soft && isAmplifier(roles))
      .filter(({ part }) => !isNoted(circuit, part))
      .map((tube) => misplaced(tube, tubes));
  },
};

const amplifying: readonly string[] = ['radio', 'intermediate', 'audio', 'output'];

function isAmplifier(roles: readonly string[]): boolean {
  return (
    roles.some((role) => amplifying.includes(role)) &&
    !roles.includes('detector') &&
    !roles.includes('mixer')
  );
}

/** Whether a note stands in the tube's block or right behind it, or speaks of it by name. */
function isNoted(circuit: Circuit, tube: Part): boolean {
  const next = circuit.parts.reduce(
    (first, { place }) => (place.start > tube.place.start ? Math.min(first, place.start) : first),
    Number.POSITIVE_INFINITY,
  );
  return circuit.notes.some(
    ({ place, text }) =>
      (place.start > tube.place.end && place.start < next) ||
      text.split(/[^\w]+/).includes(tube.name),
  );
}

function misplaced(tube: TubeAt, tubes: readonly TubeAt[]): Finding {
  const { part, roles, stage } = tube;
  const { tubeType: type } = part;
  const hard = tubes.find(
    (other) =>
      other.part.tubeType &&
      !other.part.tubeType.soft &&
      other.part.tubeType.filamentVolts === type?.filamentVolts &&
      other.part.tubeType.filamentAmperes === type?.filamentAmperes,
  )?.part.typeName;
  const detector = tubes.find((other) => other.roles.includes('detector'));
  const where = stage ? ` ${stage.name}` : '';
  return finding({
    check: 'gas-tube-misplaced',
    severity: 'warning',
    message: `${part.name} is a ${part.typeName}, a gas detector, in the ${listed(roles)} stage${where}.`,
    why: 'At an amplifier’s plate voltage its gas ionizes: it glows, roars and passes too much current.',
    cure: `Put a hard tube in its socket${hard ? `, such as the ${hard} of this set` : ''}${
      detector && !detector.part.tubeType?.soft
        ? `; the ${part.typeName} belongs, if anywhere, in that of ${detector.part.name}`
        : ''
    }.`,
    place: part.place,
    related: stage ? [{ place: stage.place, message: 'this stage amplifies' }] : [],
    parts: [part.name],
  });
}

function setWith(type: string): string {
  return `receiver "Harbour office" {
  battery A storage {
    tap A- 0 V
    tap A+ 6 V
  }
  battery B dry {
    tap B-
    tap B+45
  }
  post ANT aerial
  post GND ground
  wire B- to A- to GND
  rheostat RH1 20 ohms from A- to V1.filament- set 4 ohms
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
  output stage AF {
    transformer T1 ratio 1 to 3 {
      winding primary 800 ohms to GND
      winding secondary 5000 ohms from GND to V1.grid
    }
    tube V1 ${type} {
      filament to A+
      plate to PH1.start
    }
    phones PH1 2000 ohms from V1.plate to B+45
  }
}
`;
}
