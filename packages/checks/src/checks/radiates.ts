import { coilMatrix, tunedAt } from '@setwright/analysis';
import type { Finding } from '@setwright/circuit';
import type { Check } from '../check.ts';
import { regenerativeExample } from '../examples/regenerative-example.ts';
import { type Feedback, feedbacks } from '../radio/feedback.ts';
import { radioReach } from '../radio/radio-reach.ts';
import { coilOf } from '../radio/radio-wiring.ts';
import { fieldBetween } from '../radio/winding-fields.ts';
import type { Study } from '../study.ts';
import { transconductanceOf } from '../tubes/tube-data.ts';
import { alsoPart, finding } from '../words/finding.ts';

/** A detector, mixer or oscillator that can send through the aerial. */
export const radiates: Check = {
  id: 'radiates',
  group: 'Radio frequency',
  severity: 'information',
  summary: 'A tube that can oscillate and reaches the aerial with no amplifier tube between.',
  why: 'When it oscillates it sends: it disturbs listeners around and may break local rules today.',
  silent: [
    'A radio stage between the aerial and the tube lets nothing back, or nearly.',
    'A set with no aerial.',
    'A tickler too weak or the wrong way round to make the tube oscillate at any setting.',
    'A fixed tickler of which it is not known how it lies to the grid winding.',
    'Period practice that is said to be so, with a `meant`.',
  ],
  source: 'common practice',
  needsWholeText: true,
  fails: regenerativeExample({}),
  passes: regenerativeExample({ aerial: 'from V0.plate to B+45', front: radioStage() }),
  find(study) {
    const { circuit } = study;
    const aerials = circuit.parts.filter(
      (part) => part.kind === 'post' && part.words.has('aerial'),
    );
    if (aerials.length === 0) return [];
    return feedbacks(study).flatMap((each) => {
      const { tube, grid } = each;
      const { roles } = tube;
      const isAmplifier = roles.includes('radio') && !roles.includes('detector');
      if (isAmplifier || roles.includes('intermediate') || !canOscillate(study, each)) return [];
      const { junctions } = radioReach(study, [coilOf(grid.winding)]);
      const aerial = aerials.find((part) => part.ends.some((end) => junctions.has(end.junction)));
      return aerial ? [told(each, aerial)] : [];
    });
  },
};

/**
 * Whether a tube can oscillate at some setting: gm·M at least R·C at an end of its range, with the
 * least losses the circuit can have. Sizes that are not known count for it; a sense that is not
 * known counts against it.
 */
function canOscillate(study: Study, { tube, grid, plate, helps, isMovable }: Feedback): boolean {
  const siemens = transconductanceOf(tube);
  const coil = coilOf(grid.winding);
  const turned = new Map(
    [plate.winding, grid.winding].flatMap(({ name, setting }) =>
      setting === undefined ? [] : [[name, 1] as const],
    ),
  );
  const field = isMovable
    ? fieldBetween(
        coilMatrix(study.circuit, coil, turned),
        { winding: grid.winding, from: grid.lowEnd, to: grid.gridEnd },
        { winding: plate.winding, from: plate.plateEnd, to: plate.farEnd },
      )
    : helps;
  if (field === undefined) return isMovable;
  if (siemens === undefined) return isMovable || field > 0;
  const mutual = isMovable ? Math.abs(field) : field;
  if (mutual <= 0) return false;
  const tuned = study.radio.tuned.find(({ windings }) =>
    windings.some(({ edge }) => edge.part === grid.winding.name),
  );
  const edges = [tuned?.lowest.value, tuned?.highest.value].flatMap((each) => each ?? []);
  if (!tuned || edges.length === 0) return true;
  return edges.some((frequency) => {
    const { resistance } = tunedAt(tuned, frequency);
    const { value: henries } = tuned.inductance;
    if (resistance.value === undefined || henries === undefined) return true;
    const farads = 1 / ((2 * Math.PI * frequency) ** 2 * henries);
    return siemens * mutual >= resistance.value * farads;
  });
}

function told({ tube, grid, plate }: Feedback, aerial: { name: string }): Finding {
  return finding({
    check: 'radiates',
    severity: 'information',
    message: `${tube.part.name} can oscillate by ${plate.winding.name}, and ${grid.winding.name} reaches ${aerial.name} with no tube between: it would send.`,
    why: 'It would disturb listeners around, and may break local rules today.',
    cure: 'Keep it below oscillation, or put a radio stage between it and the aerial.',
    place: tube.part.place,
    related: [
      alsoPart(plate.winding, 'what makes it oscillate'),
      alsoPart(grid.winding, 'what reaches the aerial'),
    ],
    parts: [tube.part.name, plate.winding.name],
  });
}

function radioStage(): string {
  return `radio stage RF {
    coil L0 {
      form 2 3/4 in
      winding aerial 10 turns of 26 DCC from GND to ANT
      winding grid 58 turns of 26 DCC beside aerial spaced 1/4 in from NEG
    }
    condenser C0 variable 14 to 365 mmfd rotor to NEG stator to L0.grid.finish
    resistor R0 1000 ohms from L0.grid.finish to V0.grid
    rheostat RH0 20 ohms from A+ set 4 ohms
    tube V0 01-A {
      filament from NEG to RH0
    }
  }`;
}
