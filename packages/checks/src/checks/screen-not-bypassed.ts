import { type Conduction, type Finding, type Part, stepFrom } from '@setwright/circuit';
import { formatQuantity } from '@setwright/units';
import type { Check } from '../check.ts';
import { bypassed } from '../fixes/edits.ts';
import { amplifiesRadio, lowestFrequency } from '../radio/radio-use.ts';
import type { Study } from '../study.ts';
import { hasScreen, isStrappedAsTriode, type ScreenTube, screenUse } from '../tubes/screens.ts';
import { judgedOverPositions, standingWords } from '../wiring/positions.ts';
import { stillPoints } from '../wiring/still-points.ts';
import { alsoPart, finding, listed } from '../words/finding.ts';

/**
 * The most that may lie between a screen and its filament for radio current, in ohms. What the
 * screen lets through then stays below the grid-to-plate capacitance that the tube itself has:
 * computed for 550 kc, 10 mmfd plate to screen, 3.5 mmfd screen to grid and .02 mmfd.
 */
const MOST_SCREEN_OHMS = 50;

/** A screen without a low path for radio current to the filament. */
export const screenNotBypassed: Check = {
  id: 'screen-not-bypassed',
  group: 'Radio frequency',
  severity: 'warning',
  summary: 'A screen with no low path for radio current to its filament.',
  why: 'Only a screen that is at rest for radio keeps the plate from acting back on the grid; without its bypass the stage oscillates.',
  silent: [
    'A space-charge tube has no screen to be kept at rest.',
    'A screen strapped to the plate makes the tube a triode.',
    'Detectors and audio stages do not oscillate for want of it.',
    'One bypass on a tap that feeds several screens serves them all.',
    'A bypass of unknown size is taken as good.',
    'A screen with no supply is the business of `screen-without-supply`.',
  ],
  source: 'common practice',
  needsWholeText: true,
  fails: setWith('.0002'),
  passes: setWith('.5'),
  find(study) {
    const { circuit } = study;
    const tubes = study.tubes
      .filter(hasScreen)
      .filter((tube) => !isStrappedAsTriode(tube) && amplifiesRadio(circuit, tube));
    if (tubes.length === 0) return [];
    const use = screenUse(study.conduction, study.islands);
    const screening = tubes.filter(
      (tube) => use.feeds.has(tube.screen.junction) && !use.isSpaceCharge(tube),
    );
    const bare = judgedOverPositions(study, (conduction) => {
      const ground = stillPoints(conduction, { plateTaps: false });
      return new Set(screening.filter((tube) => !isBypassed(conduction, ground, tube)));
    });
    const ground =
      bare.size > 0 ? stillPoints(study.conduction, { plateTaps: false }) : new Set<number>();
    return [...bare].map(([tube, { curedBy }]) =>
      unbypassed(
        study,
        tube,
        bypassesOf(study.conduction, ground, tube).map(({ part }) => part),
        curedBy && standingWords(circuit, study.on.settings, curedBy),
      ),
    );
  },
};

/** The bypasses of a screen: condensers between what is wired to it and the filaments. */
function bypassesOf(
  conduction: Conduction,
  ground: ReadonlySet<number>,
  tube: ScreenTube,
): { readonly part: Part; readonly ohms: number }[] {
  const found = new Map<string, { part: Part; ohms: number }>();
  const ohmsTo = new Map([[tube.screen.junction, 0]]);
  for (const [here, ohms] of ohmsTo) {
    for (const branch of conduction.at[here] ?? []) {
      const part = conduction.circuit.partNamed.get(branch.part);
      const there = stepFrom(branch, here).junction;
      if (part?.kind === 'condenser' && ground.has(there)) {
        if (!found.has(part.name)) found.set(part.name, { part, ohms });
      } else if (part && branch.direct.kind === 'conducts' && isPlainPath(part)) {
        const far = ohms + (branch.direct.ohms ?? 0);
        if (far < MOST_SCREEN_OHMS && !ohmsTo.has(there)) ohmsTo.set(there, far);
      }
    }
  }
  return [...found.values()];
}

function isPlainPath({ kind }: Part): boolean {
  return kind === 'lead' || kind === 'switch' || kind === 'jack' || kind === 'resistor';
}

function isBypassed(
  conduction: Conduction,
  ground: ReadonlySet<number>,
  tube: ScreenTube,
): boolean {
  const frequency = lowestFrequency(conduction.circuit, tube);
  let siemens = 0;
  for (const { part, ohms } of bypassesOf(conduction, ground, tube)) {
    const farads = part.values.capacitance?.value ?? part.ranges.capacitance?.high.value;
    if (farads === undefined || frequency === undefined) return true;
    siemens += 1 / (ohms + 1 / (2 * Math.PI * frequency * Math.max(farads, 1e-15)));
  }
  return ground.has(tube.screen.junction) || siemens * MOST_SCREEN_OHMS >= 1;
}

function unbypassed(
  study: Study,
  tube: ScreenTube,
  small: readonly Part[],
  cured: string | undefined,
): Finding {
  const { circuit } = study;
  const { part, screen, reference } = tube;
  const sizes = small.map(
    ({ name, values }) =>
      `${name} of ${formatQuantity(values.capacitance?.value ?? 0, 'capacitance')}`,
  );
  const frequency = lowestFrequency(circuit, tube);
  const at = frequency === undefined ? '' : ` at ${formatQuantity(frequency, 'frequency')}`;
  const home = reference?.id ?? 'the filament';
  return finding({
    check: 'screen-not-bypassed',
    severity: cured === undefined ? 'warning' : 'information',
    message:
      small.length > 0
        ? `The screen of ${part.name} is not at rest for radio${at}: ${listed(sizes)} ${small.length > 1 ? 'are' : 'is'} too small to bypass it.`
        : `The screen of ${part.name} is not at rest for radio: no condenser leads from it to its ${reference?.name === 'cathode' ? 'cathode' : 'filament'}.`,
    why: 'Through a screen that is not at rest the plate acts back on the grid, and the stage oscillates.',
    cure:
      cured !== undefined
        ? `Nothing, if it is meant: it is bypassed with ${cured}.`
        : small.length > 0
          ? `Use .1 to .5 mfd in place of ${listed(small.map(({ name }) => name))}.`
          : `Put a condenser of .1 to .5 mfd from ${screen.id} to ${home}, close to the socket.`,
    place: part.place,
    related: small.map((each) => alsoPart(each, 'too small for this')),
    parts: [part.name, ...small.map(({ name }) => name)],
    fixes:
      cured === undefined && small.length === 0
        ? bypassed(circuit, part, '.5 mfd', screen.id, reference?.id)
        : cured === undefined
          ? small.slice(0, 1).flatMap(({ name, values: { capacitance } }) =>
              capacitance
                ? [
                    {
                      title: `Make ${name} .5 mfd`,
                      edits: [{ place: capacitance.place, text: '.5 mfd' }],
                    },
                  ]
                : [],
            )
          : [],
  });
}

function setWith(mfd: string): string {
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
    condenser C2 ${mfd} mfd from V1.screen to V1.filament-
  }
  detector stage DET {
    coil L2 {
      form 2 in
      winding plate 20 turns of 30 DSC to B+135
      winding secondary 70 turns of 28 DSC beside plate from GND
    }
    condenser C3 variable 14 to 365 mmfd rotor to GND stator to L2.secondary.finish
    crystal CR1 from L2.secondary.finish to PH1.start
    phones PH1 2000 ohms from PH1.start to GND
    condenser C4 .001 mfd across PH1
  }
}
`;
}
