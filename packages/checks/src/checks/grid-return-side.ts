import { type Conduction, type Finding, type Settings, zeroTap } from '@setwright/circuit';
import { gridDetectionShift, gridLeakRest } from '@setwright/physics';
import { formatQuantity } from '@setwright/units';
import type { Check } from '../check.ts';
import { retargeted } from '../fixes/retarget.ts';
import { positiveTap } from '../grids/grid-home.ts';
import { ohmsOf, type ReturnEnd, returnEnds, wayTo } from '../grids/return-path.ts';
import { typicalGrid } from '../grids/typical-grid.ts';
import type { Study } from '../study.ts';
import { lightOf, type Rails, railsOf } from '../supplies/rails.ts';
import { detectingCondenserOf, detectingLeakOf } from '../tubes/detecting.ts';
import { type GridLeak, isDiode, type TubeAt } from '../tubes/tubes.ts';
import { judgedOverPositions, standingWords, whileLit } from '../wiring/positions.ts';
import { alsoPart, finding, junctionName } from '../words/finding.ts';

const set = (side: string) => `receiver "Cove Gig" {
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
    condenser C2 .00025 mfd from L1.grid.finish to V1.grid
    leak R1 2 meg from V1.grid to ${side}
    tube V1 01-A {
      filament from RH1 to A+
    }
    phones PH1 2000 ohms from V1.plate to B+45
    condenser C3 .001 mfd from V1.plate to A-
  }
}
`;

/** Grid current through this much, in ohms, holds a grid near zero whatever it returns to. */
const HOLDING_OHMS = 100_000;
/** Half the power: what the ear just notices. */
const THREE_DECIBELS = Math.SQRT1_2;
/** Roles of the stages that want a C battery. */
const audio: readonly string[] = ['audio', 'output'];
/** A usual leak, in ohms, where the text does not say; common practice. */
const USUAL_LEAK = 2e6;

/** A grid that returns to the wrong side of its filament. */
export const gridReturnSide: Check = {
  id: 'grid-return-side',
  group: 'DC returns',
  severity: 'error',
  summary:
    'A grid-leak detector on the side of the filament that its type does not want, or an amplifier on the positive side.',
  why: 'The side of the filament that a grid returns to sets the point from which it works: a hard detector wants a little grid current, an amplifier none.',
  silent: [
    'A return to the arm of a potentiometer across the filament may be set to either side.',
    'A type whose data do not say which side it wants as a detector.',
    'A return through a C battery: the detector works by bias and not by its leak.',
    'A leak across the condenser counts by the side that the coil returns to.',
    'A positive side behind a rheostat is still the positive side.',
    'A detector that would rectify within 3 decibels as well on the other side.',
    'An amplifier that returns to the positive side through 100 kilohms or more: its own grid current holds it near zero.',
    'A return to the filament of a neighbour in a series string.',
    'An oscillator sets its own grid, whichever side its leak returns to.',
  ],
  source:
    'common practice; detectors by the data of the tube type; 3 decibels by the law of E. L. Chaffee and G. H. Browning, Proc. IRE 15 (1927) 113 (from memory)',
  needsWholeText: true,
  fails: set('A-'),
  passes: set('A+'),
  find(study) {
    const found = faultsIn(study, study.conduction);
    const judged = judgedOverPositions(
      study,
      (conduction) =>
        conduction === study.conduction
          ? new Set(found.keys())
          : new Set(faultsIn(study, conduction).keys()),
      whileLit,
    );
    return [...judged].flatMap(([tube, { curedBy }]) => {
      const fault = found.get(tube);
      if (!fault) return [];
      return fault.detector
        ? detectorTold(study, tube, fault, fault.detector, curedBy)
        : amplifierTold(study, tube, fault, curedBy);
    });
  },
};

interface Fault {
  readonly rails: Rails;
  /** The junction that the return ends on. */
  readonly junction: number;
  readonly detector: (GridLeak & { readonly leak: NonNullable<GridLeak['leak']> }) | undefined;
}

function faultsIn(study: Study, conduction: Conduction): ReadonlyMap<TubeAt, Fault> {
  const { circuit, tubes } = study;
  const rails = railsOf(conduction);
  const faults = new Map<TubeAt, Fault>();
  for (const tube of tubes) {
    const { grid, roles } = tube;
    if (!grid || isDiode(tube) || roles.includes('oscillator')) continue;
    const detector = detectingLeakOf(circuit, tube);
    const wanted = detector ? wantedSide(tube) : 'negative';
    if (wanted === undefined) continue;
    const ends = returnEnds(conduction, rails, tube, grid.junction);
    const sides = new Set(ends.map((end) => sideOf(end, rails, tube)));
    const side = [...sides][0];
    if (sides.size !== 1 || side === undefined || side === wanted) continue;
    // A cathode is on the negative side as often as not.
    if (wanted === 'cathode' && side === 'negative') continue;
    const junction = ends[0]?.junction ?? -1;
    const isFault = detector
      ? true
      : isAmplifier(study, rails, tube) && ohmsBack(conduction, grid.junction, ends) < HOLDING_OHMS;
    if (isFault) faults.set(tube, { rails, junction, detector });
  }
  return faults;
}

function wantedSide({ part }: TubeAt): 'positive' | 'negative' | 'cathode' | undefined {
  const wanted = part.tubeType?.detector?.returnTo;
  if (wanted === 'A+') return 'positive';
  return wanted === 'A-' ? 'negative' : wanted;
}

/** Which side of the tube's own filament supply a return ends on, if on one of them. */
function sideOf(
  { junction, rail }: ReturnEnd,
  rails: Rails,
  tube: TubeAt,
): 'positive' | 'negative' | undefined {
  const light = lightOf(rails, tube);
  if (rail?.kind === 'filament') return light && rail.sides.get(light.supply);
  if (rail) return undefined;
  // Its own filament, fed in a way that does not tell the sides: by the marks on the socket.
  if (junction === tube.filamentPlus?.junction) return 'positive';
  return junction === tube.filamentMinus?.junction ? 'negative' : undefined;
}

/** Whether a tube amplifies, with its F− on the negative side: only then is positive wrong. */
function isAmplifier(study: Study, rails: Rails, tube: TubeAt): boolean {
  if (tube.roles.some((role) => ['detector', 'mixer', 'oscillator'].includes(role))) return false;
  if (detectingCondenserOf(study.circuit, tube) || tube.cathode) return false;
  const light = lightOf(rails, tube);
  if (light?.negativeEnd !== 'negative') return false;
  const { grid, reference } = tube;
  const bias = grid && reference && study.solved.voltage(grid.id, reference.id);
  return bias === undefined || bias > 0;
}

function ohmsBack(conduction: Conduction, grid: number, ends: readonly ReturnEnd[]): number {
  const to = ends[0]?.junction ?? -1;
  return ohmsOf(conduction, wayTo(conduction, grid, to));
}

function detectorTold(
  study: Study,
  tube: TubeAt,
  { rails, junction }: Fault,
  { condenser, leak, across }: NonNullable<Fault['detector']>,
  curedBy: Settings | undefined,
): Finding[] {
  const { circuit } = study;
  const { part, grid } = tube;
  const data = part.tubeType?.detector;
  const supply = lightOf(rails, tube)?.supply;
  const wantsPositive = data?.returnTo === 'A+';
  const wantsCathode = data?.returnTo === 'cathode';
  const to = supply && (wantsPositive ? positiveTap(supply) : zeroTap(supply)?.end);
  const end = wantsCathode ? 'cathode' : wantsPositive ? 'filament+' : 'filament-';
  const wanted = (wantsCathode ? undefined : to) ?? `${part.name}.${end}`;
  if (
    !wantsCathode &&
    nearlyAsGood(study, tube, leak.values.resistance?.value ?? USUAL_LEAK, junction, wanted)
  )
    return [];
  const range = data?.leak
    ? `, leak ${data.leak.map((ohms) => formatQuantity(ohms, 'resistance')).join(' to ')}`
    : '';
  const farEnd = leak.ends.find((end) => end.junction !== grid?.junction);
  const way = across ? `, by ${leak.name} across ${condenser.name} and the coil behind it,` : '';
  return [
    finding({
      check: 'grid-return-side',
      severity: curedBy ? 'information' : 'warning',
      message: `The grid of ${part.name} returns${way} to ${junctionName(circuit, junction)}${curedBy ? ' as drawn' : ''}, but the ${part.typeName} as a detector wants it on ${wanted}.`,
      why: wantsCathode
        ? 'Away from its cathode the grid takes up whatever the heater does, its hum first of all.'
        : wantsPositive
          ? 'On the negative side a hard tube draws too little grid current to rectify well, and weak stations are lost.'
          : 'On the positive side a gas detector draws more grid current than it bears, and loses its sensitive point.',
      cure: curedBy
        ? `Nothing, if it is meant: it is otherwise with ${standingWords(circuit, study.on.settings, curedBy)}.`
        : `Put ${leak.name} from ${grid?.id} to ${wanted} (data of the ${part.typeName}: return to ${data?.returnTo}${range}).`,
      place: leak.place,
      related: [alsoPart(part, `the ${part.typeName} that detects`)],
      parts: [part.name, leak.name],
      fixes: curedBy || across || !farEnd ? [] : retargeted(circuit, farEnd.id, wanted),
    }),
  ];
}

/** Whether a hard tube rectifies within 3 decibels as well where it returns as where it should. */
function nearlyAsGood(
  study: Study,
  tube: TubeAt,
  leak: number,
  junction: number,
  wanted: string,
): boolean {
  if (tube.part.tubeType?.soft || !tube.reference) return false;
  const here = study.circuit.junctions[junction]?.terminals[0] ?? '';
  const there = [...study.circuit.endNamed.keys()].find(
    (id) => id === wanted || id.endsWith(`.${wanted}`),
  );
  const shiftAt = (terminal: string): number | undefined => {
    const volts = tube.reference && study.solved.voltage(terminal, tube.reference.id);
    const rest = volts === undefined ? undefined : gridLeakRest(typicalGrid, volts, leak);
    return rest && gridDetectionShift(rest.state, leak, 1);
  };
  const asWired = shiftAt(here);
  const asWanted = there === undefined ? undefined : shiftAt(there);
  if (asWired === undefined || asWanted === undefined) return false;
  return Math.abs(asWired) >= THREE_DECIBELS * Math.abs(asWanted);
}

function amplifierTold(
  study: Study,
  tube: TubeAt,
  { rails, junction }: Fault,
  curedBy: Settings | undefined,
): Finding {
  const { circuit, conduction } = study;
  const { part, grid, reference } = tube;
  const bias = grid && reference && study.solved.voltage(grid.id, reference.id);
  const above =
    bias === undefined
      ? ''
      : `, ${formatQuantity(bias, 'voltage', 'period', 2)} above its filament`;
  const way = grid ? wayTo(conduction, grid.junction, junction) : [];
  const last = way.at(-1);
  const lastPart = circuit.partNamed.get(last?.part ?? '');
  const supply = lightOf(rails, tube)?.supply;
  const negative = (supply && zeroTap(supply)?.end) ?? `${part.name}.filament-`;
  const end = last?.to ?? grid?.id ?? part.name;
  const isRadio = tube.roles.length > 0 && !tube.roles.some((role) => audio.includes(role));
  return finding({
    check: 'grid-return-side',
    severity: curedBy ? 'information' : 'error',
    message: `The grid of ${part.name} returns to ${junctionName(circuit, junction)}${curedBy ? ' as drawn' : ''}, the positive side${above}.`,
    why: 'An amplifier with a positive grid draws grid current, which loads what drives it, distorts, and wastes the B battery.',
    cure: curedBy
      ? `Nothing, if it is meant: it is otherwise with ${standingWords(circuit, study.on.settings, curedBy)}.`
      : `Lead ${end} to ${negative}${isRadio ? '' : `, or to the C tap that ${part.name} wants`}.`,
    place: lastPart?.place ?? part.place,
    related: lastPart ? [alsoPart(part, `the grid of ${part.name} returns by it`)] : [],
    parts: [part.name],
    // An arm is turned, not led elsewhere.
    fixes:
      curedBy || circuit.partOfEnd.get(end)?.kind === 'potentiometer'
        ? []
        : retargeted(circuit, end, negative),
  });
}
