import {
  directIslands,
  directPath,
  type End,
  type Finding,
  type Part,
  zeroTap,
} from '@setwright/circuit';
import type { Check } from '../check.ts';
import { bridged, isWritable, withLine } from '../fixes/edits.ts';
import type { Study } from '../study.ts';
import { isPlateSupply } from '../supplies/plate-feed.ts';
import type { TubeAt } from '../tubes/tubes.ts';
import { judgedOverPositions, standingWords } from '../wiring/positions.ts';
import { alsoPart, finding, junctionName, listed } from '../words/finding.ts';

type HeaterTube = TubeAt & { readonly cathode: End };

/** A cathode with no direct path to B−. */
export const cathodeWithoutReturn: Check = {
  id: 'cathode-without-return',
  group: 'DC returns',
  severity: 'error',
  summary:
    'The cathode of a heater tube has no direct path to the negative side of the plate supply.',
  why: 'No plate current can flow, and the whole plate voltage may come to stand between cathode and heater, whose insulation is not made for it.',
  silent: [
    'A directly heated tube has no cathode of its own.',
    'A bias resistor, a choke, a winding or a bias battery under the cathode is a path.',
    'A cathode strapped to its heater returns by way of the heater supply.',
    'Where the plate supply is joined to no tube at all, `batteries-unjoined` speaks.',
    'Where no B battery or eliminator is written down, nothing is known of the return.',
  ],
  source: 'common practice',
  needsWholeText: true,
  fails: setWith(''),
  passes: setWith('\n    resistor R1 2000 ohms from V1.cathode to GND'),
  find(study) {
    const { circuit, tubes } = study;
    const heated = tubes.filter((tube): tube is HeaterTube => tube.cathode !== undefined);
    const supplies = circuit.parts.filter(isPlateSupply);
    if (heated.length === 0 || supplies.length === 0) return [];
    const cut = judgedOverPositions(study, (conduction) => {
      const islands = conduction === study.conduction ? study.islands : directIslands(conduction);
      const home = new Set(
        supplies.flatMap((supply) => {
          const junction = zeroJunction(supply);
          return junction === undefined ? [] : [islands[junction]];
        }),
      );
      const isHome = (end: End | undefined): boolean =>
        end !== undefined && home.has(islands[end.junction]);
      // A supply that no tube is joined to at all is a fault of its own.
      const anyJoined = tubes.some(
        (tube) => isHome(tube.cathode) || isHome(tube.filamentMinus) || isHome(tube.filamentPlus),
      );
      return new Set(anyJoined ? heated.filter(({ cathode }) => !isHome(cathode)) : []);
    });
    return [...cut].map(([tube, { curedBy }]) =>
      open(study, tube, supplies, curedBy && standingWords(circuit, study.on.settings, curedBy)),
    );
  },
};

function zeroJunction(supply: Part): number | undefined {
  const zero = zeroTap(supply);
  return supply.ends.find((end) => end.name === zero?.end)?.junction;
}

/** Ohms by which a type biases itself at its first published point; a usual size where none is. */
function biasResistor({ tubeType }: Part): string {
  const point = tubeType?.points.find(
    ({ gridVolts, plateAmperes }) => gridVolts < 0 && (plateAmperes ?? 0) > 0,
  );
  const ohms = point?.plateAmperes ? -point.gridVolts / point.plateAmperes : 2000;
  return `${Math.round(ohms / 100) * 100 || 100} ohms`;
}

function open(
  study: Study,
  tube: HeaterTube,
  supplies: readonly Part[],
  cured: string | undefined,
): Finding {
  const { circuit, conduction } = study;
  const { part, cathode } = tube;
  const zeros = new Set(supplies.flatMap((supply) => zeroJunction(supply) ?? []));
  const path = directPath(conduction, cathode.junction, (junction) => zeros.has(junction));
  const blockers = path.found
    ? []
    : path.blockers
        .filter((blocker) => blocker.goalBeyond)
        .flatMap((blocker) => circuit.partNamed.get(blocker.part) ?? [])
        .filter((blocker) => blocker.kind !== 'tube')
        .slice(0, 3);
  const supply = supplies[0];
  const minus = supply ? (zeroTap(supply)?.end ?? supply.name) : 'B-';
  const alone = (circuit.junctions[cathode.junction]?.terminals.length ?? 0) < 2;
  const what = alone
    ? 'nothing is joined to it'
    : blockers.length > 0
      ? `${listed(blockers.map(({ name }) => name))} block${blockers.length > 1 ? '' : 's'} direct current and nothing else leads from it to ${minus}`
      : `nothing leads from ${junctionName(circuit, cathode.junction)} to ${minus}`;
  return finding({
    check: 'cathode-without-return',
    severity: cured === undefined ? 'error' : 'information',
    message: `The cathode of ${part.name} has no return${cured === undefined ? '' : ' as drawn'}: ${what}.`,
    why: 'No plate current can flow, and the heater insulation may have to stand the whole plate voltage.',
    cure:
      cured === undefined
        ? `Join ${cathode.id} to ${minus}, by its bias resistor where it has one.`
        : `Nothing, if it is meant: it has its return with ${cured}.`,
    place: part.place,
    related: blockers.map((blocker) => alsoPart(blocker, 'it blocks direct current')),
    parts: [part.name],
    fixes:
      cured !== undefined || !isWritable(circuit, minus)
        ? []
        : blockers.length > 0
          ? bridged(
              circuit,
              part,
              { kind: 'resistor', letter: 'R', size: biasResistor(part) },
              cathode.id,
              minus,
            )
          : [
              withLine(
                circuit,
                part,
                `Join ${cathode.id} to ${minus}`,
                `wire ${cathode.id} to ${minus}`,
              ),
            ],
  });
}

function setWith(biasResistor: string): string {
  return `receiver "Reading lamp" {
  battery A "heater winding" storage {
    tap A- 0 V
    tap A+ 2.5 V
  }
  battery B dry {
    tap B-
    tap B+90
  }
  post ANT aerial
  post GND ground
  wire B- to A- to GND
  detector stage DET {
    coil L1 {
      form 2 in
      winding aerial 12 turns of 30 DSC from GND to ANT
      winding grid 70 turns of 28 DSC beside aerial from GND
    }
    condenser C1 variable 14 to 365 mmfd rotor to GND stator to L1.grid.finish
    crystal CR1 from L1.grid.finish to T1.primary.start
    condenser C2 .001 mfd across T1.primary
  }
  output stage AF {
    transformer T1 ratio 1 to 3 {
      winding primary 800 ohms to GND
      winding secondary 5000 ohms from GND to V1.grid
    }
    tube V1 27 {
      heater from A- to A+
      plate to PH1.start
    }${biasResistor}
    condenser C3 1 mfd from V1.cathode to GND
    phones PH1 2000 ohms from V1.plate to B+90
  }
}
`;
}
