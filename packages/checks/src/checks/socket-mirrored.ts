import type { Finding } from '@setwright/circuit';
import type { Check } from '../check.ts';
import { exchanged, type JoinsByTerminal, joinsByTerminal } from '../fixes/exchange.ts';
import { returnEnds } from '../grids/return-path.ts';
import type { Study } from '../study.ts';
import { lightOf, type Rails, railsOf } from '../supplies/rails.ts';
import { isDiode, type TubeAt } from '../tubes/tubes.ts';
import { outsideBridges } from '../wiring/outside.ts';
import { finding, junctionName } from '../words/finding.ts';

const set = (secondary: string, feed: string) => `receiver "Cove Lugger" {
  battery A storage {
    tap A- 0 V
    tap A+ 6 V
  }
  battery B dry {
    tap B-
    tap B+45 45 V
    tap B+90 90 V
  }
  battery C dry {
    tap C+
    tap C-4.5
  }
  post ANT aerial
  post GND ground
  wire B- to A- to GND to C+
  rheostat RH1 20 ohms from A- set 4 ohms
  rheostat RH2 20 ohms from A- set 4 ohms
  detector stage DET {
    coil L1 {
      winding aerial 20 uH from GND to ANT
      winding grid 240 uH from GND
    }
    condenser C1 variable 14 to 365 mmfd rotor to L1.grid.start stator to L1.grid.finish
    condenser C2 .00025 mfd from L1.grid.finish to V1.grid
    leak R1 2 meg from V1.grid to A+
    tube V1 01-A {
      filament from RH1 to A+
    }
    condenser C3 .001 mfd from V1.plate to A-
  }
  audio stage AF1 {
    transformer T1 ratio 1 to 3 {
      winding primary 800 ohms from V1.plate to B+45
      winding secondary 5000 ohms from C-4.5 to ${secondary}
    }
    tube V2 01-A {
      filament from RH2 to A+
    }
    phones PH1 2000 ohms from ${feed} to B+90
  }
}
`;

/** A socket wired from the wrong side. */
export const socketMirrored: Check = {
  id: 'socket-mirrored',
  group: 'DC returns',
  severity: 'error',
  summary: 'A tube whose grid has what its plate should have, and the reverse.',
  why: 'A socket wired from the top view while it is looked at from below has grid and plate exchanged, which puts B on the grid’s coil.',
  silent: [
    'A tube with grid and plate strapped together is a diode.',
    'A tube with a screen, or with an inner grid for space charge.',
    'Where only the filament ends are crossed, grid and plate are right.',
    'A grid that B reaches besides its own return has a coupling bridged, and no socket mirrored.',
  ],
  source: 'common practice',
  needsWholeText: true,
  fails: set('V2.plate', 'V2.grid'),
  passes: set('V2.grid', 'V2.plate'),
  find(study) {
    const rails = railsOf(study.conduction);
    const bridges = outsideBridges(study.circuit);
    const joins = joinsByTerminal(study.circuit);
    return study.tubes.flatMap((tube) => {
      const mirrored = mirroredEnds(study, rails, tube, bridges);
      return mirrored ? [told(study, { rails, joins }, tube, mirrored)] : [];
    });
  },
};

interface Mirrored {
  /** Junctions on which the grid's and the plate's ways end. */
  readonly onGrid: number;
  readonly onPlate: number;
}

function mirroredEnds(
  study: Study,
  rails: Rails,
  tube: TubeAt,
  bridges: ReturnType<typeof outsideBridges>,
): Mirrored | undefined {
  const { grid, plate, screen } = tube;
  if (!grid || !plate || screen || isDiode(tube)) return undefined;
  const endsOf = (junction: number) =>
    returnEnds(study.conduction, rails, tube, junction, { bridges });
  const onGrid = endsOf(grid.junction);
  if (onGrid.length === 0 || onGrid.some(({ rail }) => rail?.kind !== 'plate')) return undefined;
  const onPlate = endsOf(plate.junction);
  if (onPlate.length === 0 || onPlate.some(({ rail }) => rail?.kind === 'plate')) return undefined;
  return { onGrid: onGrid[0]?.junction ?? -1, onPlate: onPlate[0]?.junction ?? -1 };
}

function told(
  study: Study,
  { rails, joins }: { readonly rails: Rails; readonly joins: JoinsByTerminal },
  tube: TubeAt,
  { onGrid, onPlate }: Mirrored,
): Finding {
  const { circuit } = study;
  const { part, grid, plate, filamentMinus, filamentPlus } = tube;
  const crossed = lightOf(rails, tube)?.negativeEnd === 'positive';
  const edits = grid && plate && exchanged(circuit, grid, plate, joins);
  const filament =
    filamentMinus && filamentPlus && exchanged(circuit, filamentMinus, filamentPlus, joins);
  return finding({
    check: 'socket-mirrored',
    severity: 'error',
    message: `The socket of ${part.name} is wired the wrong way round: its grid is on ${junctionName(circuit, onGrid)} and its plate on ${junctionName(circuit, onPlate)}${crossed ? ', and its filament ends are crossed as well' : ''}.`,
    why: 'The plate has no volts, and B goes through whatever drives the grid.',
    cure: `Exchange what is joined to ${part.name}.grid and ${part.name}.plate${crossed ? `, and ${part.name}.filament- with ${part.name}.filament+` : ''}: the socket was wired from its other side.`,
    place: part.place,
    parts: [part.name],
    fixes: edits
      ? [
          {
            title: `Exchange grid and plate of ${part.name}`,
            edits: [...edits, ...((crossed && filament) || [])],
          },
        ]
      : [],
  });
}
