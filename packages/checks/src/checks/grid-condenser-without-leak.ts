import { type Finding, type Fix, isSupply, type Part, type Settings } from '@setwright/circuit';
import { formatQuantity } from '@setwright/units';
import type { Check } from '../check.ts';
import { floatingGrids } from '../grids/floating-grid.ts';
import { type GridHome, gridHomeOf, writableTap } from '../grids/grid-home.ts';
import { strandingCondenser } from '../grids/stranded-grid.ts';
import type { Study } from '../study.ts';
import { type Rails, railsOf } from '../supplies/rails.ts';
import { detectsBehind } from '../tubes/detecting.ts';
import { isLeak, otherJunction, partsAt, type TubeAt } from '../tubes/tubes.ts';
import { judgedOverPositions, standingWords, whileLit } from '../wiring/positions.ts';
import { alsoPart, finding } from '../words/finding.ts';

const set = (leak: string) => `receiver "Cove Punt" {
  battery A storage {
    tap A- 0 V
    tap A+ 6 V
  }
  battery B dry {
    tap B-
    tap B+45 45 V
  }
  post ANT aerial
  post GND ground
  wire B- to A- to GND
  rheostat RH1 20 ohms from A- set 4 ohms
  detector stage DET {
    coil L1 {
      winding aerial 20 uH from GND to ANT
      winding grid 240 uH from GND
    }
    condenser C1 variable 14 to 365 mmfd rotor to L1.grid.start stator to L1.grid.finish
    condenser C2 "grid condenser" .00025 mfd from L1.grid.finish to V1.grid
${leak}    tube V1 01-A {
      filament from RH1 to A+
    }
    phones PH1 2000 ohms from V1.plate to B+45
    condenser C3 .001 mfd from V1.plate to A-
  }
}
`;

/**
 * Until about this year tubes were gassy enough, and insulation poor enough, for a detector to
 * work with no leak. From memory.
 */
const LAST_LEAKLESS_YEAR = 1923;
/** A usual leak of a detector, in ohms; common practice. */
const DETECTING_LEAK_OHMS = 2e6;
/** A leak for a coupling condenser, in ohms; common practice for general purpose tubes. */
const COUPLING_LEAK_OHMS = 1e6;

/** A grid that hangs on its condenser with nothing to let its charge go. */
export const gridCondenserWithoutLeak: Check = {
  id: 'grid-condenser-without-leak',
  group: 'Radio frequency',
  severity: 'error',
  summary: 'A grid behind a condenser with no leak: it floats.',
  why: 'What the signal piles up on a grid behind a condenser must leak away, or the tube chokes and falls silent.',
  silent: [
    'A leak, or any other way for direct current, from the grid to the filament will do, under whatever name it goes.',
    'A leak across the condenser will do where the coil leads home.',
    'A condenser that is not in the way of the grid, as in series with the aerial, needs no leak.',
    'A soft tube, or a set of 1923 or before, may have relied on gas and leakage: information only.',
    'Where the grid has a coil or a leak that leads nowhere, `grid-without-dc-return` speaks.',
  ],
  source: 'common practice; the year from memory',
  needsWholeText: true,
  fails: set(''),
  passes: set('    leak R1 2 meg from V1.grid to A+\n'),
  find(study) {
    const judged = judgedOverPositions(
      study,
      (conduction) => floatingGrids(conduction, study.tubes).tubes,
      whileLit,
    );
    const rails = judged.size > 0 ? railsOf(study.conduction) : undefined;
    return [...judged].flatMap(([tube, { curedBy }]) => {
      const condenser = strandingCondenser(study.conduction, tube);
      return condenser && rails ? [told(study, rails, tube, condenser, curedBy)] : [];
    });
  },
};

function told(
  study: Study,
  rails: Rails,
  tube: TubeAt,
  condenser: Part,
  curedBy: Settings | undefined,
): Finding {
  const { circuit } = study;
  const { part } = tube;
  const year = circuit.year?.value;
  const isEarly = year !== undefined && year <= LAST_LEAKLESS_YEAR;
  const isSoft = part.tubeType?.soft === true;
  const detects = detectsBehind(circuit, tube, condenser);
  const home = gridHomeOf(circuit, rails, tube, detects);
  const ohms = detects ? detectingLeak(tube) : COUPLING_LEAK_OHMS;
  const wrong = leakOnCoilSide(study, tube, condenser);
  const excuse = isSoft
    ? `, and relies on the gas in the ${part.typeName}`
    : isEarly
      ? `, as was done before ${LAST_LEAKLESS_YEAR + 1}`
      : '';
  const where = home ? `${home.name}${home.because}` : `the filament of ${part.name}`;
  const cure = wrong
    ? `Put ${wrong.name} on the grid's side of ${condenser.name}: from ${tube.grid?.id} to ${where}.`
    : `Put a leak of ${formatQuantity(ohms, 'resistance')} from ${tube.grid?.id} to ${where}.`;
  return finding({
    check: 'grid-condenser-without-leak',
    severity: curedBy || isEarly || isSoft ? 'information' : 'error',
    message: `The grid of ${part.name} hangs on ${condenser.name}${curedBy ? ' as drawn' : ''} and has no leak${excuse}.`,
    why: 'A floating grid charges up and chokes the tube.',
    cure: curedBy
      ? `Nothing, if it is meant: there is a way home with ${standingWords(circuit, study.on.settings, curedBy)}.`
      : cure,
    place: part.place,
    related: [
      alsoPart(condenser, 'this condenser blocks direct current'),
      ...(wrong ? [alsoPart(wrong, 'this leak is on the far side of the condenser')] : []),
    ],
    parts: [part.name, condenser.name],
    fixes: curedBy || wrong || !home ? [] : addLeak(study, tube, condenser, home, ohms),
  });
}

/** A usual leak, or the nearest to it that the type's data allow, in ohms. */
function detectingLeak({ part }: TubeAt): number {
  const [low, high] = part.tubeType?.detector?.leak ?? [0, Number.POSITIVE_INFINITY];
  return Math.min(high, Math.max(low, DETECTING_LEAK_OHMS));
}

/** A leak that was put on the coil's side of the condenser, where it does nothing for the grid. */
function leakOnCoilSide(study: Study, tube: TubeAt, condenser: Part): Part | undefined {
  const from = condenser.ends.find((end) => end.junction === tube.grid?.junction)?.junction;
  const far = from === undefined ? undefined : otherJunction(condenser, from);
  if (far === undefined) return undefined;
  return partsAt(study.circuit, far).find((part) => isLeak(part) && part.kind === 'leak');
}

function addLeak(
  study: Study,
  tube: TubeAt,
  condenser: Part,
  home: GridHome,
  ohms: number,
): readonly Fix[] {
  const { circuit } = study;
  const isTap = circuit.parts.some(
    (part) => isSupply(part) && part.ends.some((end) => end.name === home.name),
  );
  if (isTap && !writableTap(circuit, home.name)) return [];
  let number = 1;
  while (circuit.partNamed.has(`R${number}`)) number++;
  const indent = condenser.stage === undefined ? '  ' : '    ';
  const megohms = String(ohms / 1e6).replace(/^0/, '');
  const line = `leak R${number} ${megohms} meg from ${tube.grid?.id} to ${home.name}`;
  return [
    {
      title: `Add a leak of ${formatQuantity(ohms, 'resistance')} to ${home.name}`,
      edits: [
        {
          place: { ...condenser.place, start: condenser.place.end },
          text: `\n${indent}${line}`,
        },
      ],
    },
  ];
}
