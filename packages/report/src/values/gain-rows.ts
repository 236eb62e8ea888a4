import { type OperatingPoint, type SignalGain, signalGains } from '@setwright/analysis';
import { type Circuit, rolesOf } from '@setwright/circuit';
import { type Band, edgesOf } from './bands.ts';
import { quantityText, type UnitStyle } from './quantities.ts';
import { plainReason, type Reason } from './reason.ts';
import type { ValueRow } from './rows.ts';

/** The rows of gain by the part that they begin at: a tube, the aerial's post, a loop, a crystal. */
export type GainRows = ReadonlyMap<string, readonly ValueRow[]>;

/** What is wanted where nothing can be reckoned because the set squeals. */
const QUIET = 'a set that is quiet: it oscillates';

/** Roles of the stages that make something of a signal. */
const amplifying: ReadonlySet<string> = new Set([
  'radio',
  'intermediate',
  'mixer',
  'detector',
  'audio',
  'output',
]);

/**
 * What every stage makes of the signal: radio stages at both ends of the band and in its middle,
 * intermediate stages at their frequency, audio stages at 100, 1000 and 5000 cycles.
 */
export function gainRows(
  circuit: Circuit,
  point: OperatingPoint,
  band: Band | undefined,
  style: UnitStyle,
): GainRows {
  const stations = band ? [...new Set([band.low, middleOf(band), band.high])] : [];
  const rows = new Map<string, ValueRow[]>();
  const add = (part: string, row: ValueRow): void => {
    rows.set(part, [...(rows.get(part) ?? []), row]);
  };
  const { gains, isReceiving, lacks } = signalGains(circuit, point, stations);
  for (const each of gains) {
    if (each.use === 'radio' && !band) continue;
    const { from: part, to, frequency: at, gain } = each;
    const row = { part, quantity: 'gain', at, to } as const;
    if (gain !== undefined)
      add(part, {
        ...row,
        note: `to ${to}`,
        value: gain,
        reason: reasonOf(circuit, each, point, style),
      });
    else add(part, { ...row, value: undefined, missing: [QUIET] });
  }
  const squeals = gains.some(({ use, gain }) => use === 'radio' && gain === undefined);
  for (const part of circuit.parts) {
    const { name, kind, stage } = part;
    const roles = rolesOf(circuit, part);
    if (kind !== 'tube' || rows.has(name) || !roles.some((role) => amplifying.has(role))) continue;
    const left = lacks.filter(({ part }) => isNear(circuit, part, stage)).map(({ part }) => part);
    const missing =
      left.length > 0
        ? `the sizes of ${[...new Set(left)].join(', ')}`
        : squeals && roles.includes('radio')
          ? QUIET
          : isReceiving && band
            ? `a way for the signal from ${name}`
            : 'a way for the signal from the aerial to a detector, over a band that the set tunes';
    add(name, { part: name, quantity: 'gain', value: undefined, missing: [missing] });
  }
  return rows;
}

/** The middle of a band by ratio, at a round ten kilocycles where that lies within. */
function middleOf(band: Band): number {
  const [low, high = low] = edgesOf(band);
  const middle = Math.sqrt((low ?? 0) * (high ?? 0));
  const round = 1e4 * Math.round(middle / 1e4);
  return round > band.low && round < band.high ? round : middle;
}

const solved = {
  radio: 'the whole set solved, in tune and turned for the most signal',
  intermediate: 'the whole set solved where it passes most; what mixing loses is not in it',
  audio: 'the whole set solved',
} as const;

const BOUND = 'nothing lost in form, covering and shields of coils, so that it is an upper bound';

function reasonOf(
  circuit: Circuit,
  step: SignalGain,
  point: OperatingPoint,
  style: UnitStyle,
): Reason {
  const tube = point.tubes.find((each) => each.tube === step.from);
  const { transconductance, plateResistance } = tube ?? {};
  const stops = step.atStop.map((condenser) => `${condenser} at its stop, out of reach`);
  return {
    ...plainReason(
      `volts at ${step.to} for one ${placeWords(circuit, step.from)}; ${solved[step.use]}`,
    ),
    from: [
      ...(transconductance
        ? [`mutual conductance: ${quantityText('transconductance', transconductance.value, style)}`]
        : []),
      ...(plateResistance
        ? [`plate resistance: ${quantityText('plate-resistance', plateResistance.value, style)}`]
        : []),
    ],
    taking: step.use === 'audio' ? [] : [BOUND, ...stops],
  };
}

/** Where the one volt stands: `at V1.grid`, `in the aerial`. */
function placeWords({ partNamed }: Circuit, from: string): string {
  switch (partNamed.get(from)?.kind) {
    case 'post':
      return 'in the aerial';
    case 'loop':
      return `induced in ${from}`;
    case 'crystal':
      return `across ${from}`;
    default:
      return `at ${from}.grid`;
  }
}

/** Whether a part stands in a stage, or in none, so that it may be what its signal needs. */
function isNear(circuit: Circuit, name: string, stage: string | undefined): boolean {
  const part = circuit.partNamed.get(name);
  return part !== undefined && (part.stage === stage || part.stage === undefined);
}
