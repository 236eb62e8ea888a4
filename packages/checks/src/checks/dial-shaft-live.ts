import type { Finding } from '@setwright/circuit';
import { formatQuantity } from '@setwright/units';
import type { Check } from '../check.ts';
import { exchanged } from '../fixes/exchange.ts';
import type { Study } from '../study.ts';
import { aboveGround } from '../wiring/ground.ts';
import { MOST_SHAFT_VOLTS, type Rotor, type Shaft, shaftsOf } from '../wiring/shafts.ts';
import { alsoPart, finding, listed } from '../words/finding.ts';

/** A rotor, and with it the shaft and the set-screw of its dial, far from ground. */
export const dialShaftLive: Check = {
  id: 'dial-shaft-live',
  group: 'Safety',
  severity: 'warning',
  summary: 'A condenser whose rotor, and with it the shaft, stands more than 30 volts from ground.',
  why: 'The set-screw of the dial is under the hand that tunes; a B supply there gives a shock.',
  silent: [
    'A condenser said to be `insulated` from its shaft.',
    'A shaft within 30 volts of ground.',
    'A condenser of which the text does not say which side is the rotor.',
    'A trimmer, which is set with a tool.',
    'A rotor that nothing ties to a supply: its volts are not known.',
  ],
  source: 'common practice',
  needsWholeText: false,
  fails: setWith(''),
  passes: setWith(' insulated'),
  find(study) {
    const shafts = shaftsOf(study.circuit);
    if (shafts.length === 0) return [];
    const voltsOf = aboveGround(study, study.solved);
    return shafts.flatMap((shaft) => {
      const live = shaft.rotors.flatMap((rotor) => {
        const volts = voltsOf(rotor.rotor.id);
        return volts !== undefined && Math.abs(volts) > MOST_SHAFT_VOLTS ? [{ rotor, volts }] : [];
      });
      return live.length > 0 ? [liveShaft(study, shaft, live, voltsOf)] : [];
    });
  },
};

function liveShaft(
  study: Study,
  { dial, gang }: Shaft,
  live: readonly { readonly rotor: Rotor; readonly volts: number }[],
  voltsOf: (terminal: string) => number | undefined,
): Finding {
  const { circuit } = study;
  const names = live.map(({ rotor }) => rotor.condenser.name);
  const many = names.length > 1;
  const highest = live.reduce((a, b) => (Math.abs(b.volts) > Math.abs(a.volts) ? b : a));
  const what = dial ? `the set-screw of ${dial.title ?? dial.name}` : 'the shaft';
  const { condenser, rotor, stator } = highest.rotor;
  const across = voltsOf(stator.id);
  const turns = across !== undefined && Math.abs(across) <= MOST_SHAFT_VOLTS;
  const edits = turns && !gang ? exchanged(circuit, rotor, stator) : undefined;
  return finding({
    check: 'dial-shaft-live',
    severity: 'warning',
    message: `The rotor${many ? 's' : ''} of ${listed(names)}, and with ${many ? 'them' : 'it'} ${what}, stand${many ? '' : 's'} ${formatQuantity(Math.abs(highest.volts), 'voltage')} from ground.`,
    why: 'That is under the hand that tunes: it gives a shock.',
    cure: turns
      ? `Exchange rotor and stator of ${condenser.name}, so that the shaft is on the side near ground.`
      : `Put the rotor of ${condenser.name} on ground and close its circuit by a condenser of .006 mfd or more from the fed end of the coil to ground; or insulate the shaft and write insulated on the line of ${condenser.name}.`,
    place: condenser.place,
    related: [
      ...live
        .filter(({ rotor: each }) => each.condenser !== condenser)
        .map(({ rotor: each }) => alsoPart(each.condenser, 'its rotor is on the same shaft')),
      ...(dial ? [{ place: dial.place, message: 'the dial on this shaft' }] : []),
    ],
    parts: names,
    fixes: edits ? [{ title: `Exchange rotor and stator of ${condenser.name}`, edits }] : [],
  });
}

function setWith(insulated: string): string {
  return `receiver "Fog bell" {
  battery A storage {
    tap A- 0 V
    tap A+ 6 V
  }
  battery B dry {
    tap B-
    tap B+67 67.5 V
    tap B+135 135 V
  }
  post ANT aerial
  post GND ground
  wire B- to A- to GND
  resistor F1 10 ohms from A- to V1.filament-
  resistor F2 10 ohms from A+ to V1.filament+
  radio stage RF {
    coil L1 {
      form 2 in
      winding aerial 12 turns of 30 DSC from GND to ANT
      winding grid 70 turns of 28 DSC beside aerial from GND
    }
    condenser C1 variable 14 to 365 mmfd rotor to GND stator to L1.grid.finish
    tube V1 22 {
      grid to L1.grid.finish
      screen to B+67
      plate to L2.plate.start
    }
    condenser C3 .5 mfd from V1.screen to V1.filament-
    condenser C4 .5 mfd from B+135 to V1.filament-
  }
  detector stage DET {
    coil L2 {
      form 2 in
      winding plate 70 turns of 28 DSC to B+135
      winding secondary 25 turns of 28 DSC beside plate from GND
    }
    condenser C2 variable 14 to 365 mmfd rotor to L2.plate.finish stator to L2.plate.start${insulated}
    crystal CR1 from L2.secondary.finish to PH1.start
    phones PH1 2000 ohms from PH1.start to GND
    condenser C5 .001 mfd across PH1
  }
  dial D1 0 to 100 drives C1
  dial D2 0 to 100 drives C2
}
`;
}
