import { halfPowerBandwidth, parallelResonantImpedance } from '@setwright/physics';
import type { TankLoad } from './tank-capacity.ts';
import type { TunedCircuit, TunedWinding } from './tuned-circuits.ts';
import { gathered, missingOf, type Reckoned, stated, unknown } from './value-because.ts';
import { windingLoss } from './winding-values.ts';

/** A tuned circuit at one frequency in its range, in ohms, siemens, hertz. */
export interface TunedAt {
  readonly frequency: number;
  /** Of its coil and its condensers alike. */
  readonly reactance: Reckoned;
  /** In series: the wire, and what stands inside the circuit. */
  readonly resistance: Reckoned;
  /** Of the circuit by itself. The most it can have: form, covering and shields come on top. */
  readonly q: Reckoned;
  /** With the leaks and resistances across it that the text tells of. Tubes' grids left out. */
  readonly loadedQ: Reckoned;
  /** Between half-power points, loaded. */
  readonly bandwidth: Reckoned;
  /** Across the whole at resonance, loaded. */
  readonly impedance: Reckoned;
}

/** What a tuned circuit is worth when tuned to a frequency in hertz, above 0. Never throws. */
export function tunedAt(tuned: TunedCircuit, frequency: number): TunedAt {
  const radians = 2 * Math.PI * frequency;
  const { inductance } = tuned;
  const resistance = seriesResistance(tuned, frequency);
  const missing = [...missingOf(inductance), ...missingOf(resistance)];
  const isReal = frequency > 0 && Number.isFinite(frequency);
  if (inductance.value === undefined || !isReal || !(inductance.value > 0)) {
    const lost = unknown(...(missing.length > 0 ? missing : ['a frequency above nothing']));
    const all = { reactance: lost, resistance, q: lost, loadedQ: lost };
    return { frequency, ...all, bandwidth: lost, impedance: lost };
  }
  const ohms = radians * inductance.value;
  const reactance = derived(ohms, '2\u03c0 times frequency times inductance', [inductance]);
  if (resistance.value === undefined || !(resistance.value > 0)) {
    const lost = unknown(...missing);
    return {
      frequency,
      reactance,
      resistance,
      q: lost,
      loadedQ: lost,
      bandwidth: lost,
      impedance: lost,
    };
  }
  const sources = [inductance, resistance];
  const q = ohms / resistance.value;
  let siemens = 0;
  for (const load of tuned.loads) siemens += load.siemens + load.perSquare * radians * radians;
  const loaded = 1 / (1 / q + siemens * ohms);
  const damped = [...sources, ...tuned.loads.map(ohmsOf)];
  const loadedQ = ofQ(loaded, loadedFormula(tuned), damped);
  return {
    frequency,
    reactance,
    resistance,
    q: ofQ(q, 'reactance over resistance', sources),
    loadedQ,
    bandwidth: ofQ(halfPowerBandwidth(frequency, loaded), 'frequency over Q', damped),
    impedance: ofQ(
      parallelResonantImpedance(inductance.value, loaded, frequency),
      'Q times reactance',
      damped,
    ),
  };
}

/** What damps the circuit, besides its own wire. */
function loadedFormula({ loads }: TunedCircuit): string {
  const across = loads.flatMap(({ part, siemens }) => (siemens > 0 ? [part.name] : []));
  const before = loads.flatMap(({ part, perSquare }) => (perSquare > 0 ? [part.name] : []));
  if (loads.length === 0) return 'Q; nothing that loads it is told';
  return [
    ...(across.length > 0 ? [`Q with ${across.join(', ')} across it`] : []),
    ...(before.length > 0
      ? [
          `${across.length > 0 ? '' : 'Q '}with ${before.join(', ')} before the capacity of the grid`,
        ]
      : []),
  ].join(' and ');
}

/** The resistance of a load as the text has it. */
function ohmsOf({ part }: TankLoad): Reckoned {
  const { resistance, tolerance } = part.values;
  return resistance
    ? stated(resistance, `resistance of ${part.name}`, tolerance)
    : unknown(`the ohms of ${part.name}`);
}

function seriesResistance(tuned: TunedCircuit, frequency: number): Reckoned {
  let sum = 0;
  const found: Reckoned[] = [];
  for (const winding of tuned.windings) {
    const each = resistanceOf(winding, frequency);
    if (each.value === undefined) return each;
    sum += winding.share * each.value;
    found.push(each);
  }
  for (const part of tuned.inside) sum += part.values.resistance?.value ?? 0;
  const inside = tuned.inside.map(({ name }) => name);
  const formula = ['wire at this frequency', ...inside].join(', with ');
  return derived(sum, formula, found);
}

function resistanceOf({ edge }: TunedWinding, frequency: number): Reckoned {
  if (edge.values) return windingLoss(edge.values, frequency).resistance;
  return edge.single?.resistance ?? unknown(`the ohms of ${edge.part}`);
}

/** What Q, and what follows from it, are defined to be. */
const DEFINITION = 'definition of Q';

function ofQ(value: number | undefined, formula: string, from: readonly Reckoned[]): Reckoned {
  const found = derived(value, formula, from);
  if (found.value === undefined) return found;
  const said = found.because.source.split('; ').filter((each) => each !== DEFINITION && each);
  return { ...found, because: { ...found.because, source: [...said, DEFINITION].join('; ') } };
}

function derived(value: number | undefined, formula: string, from: readonly Reckoned[]): Reckoned {
  if (value === undefined || !Number.isFinite(value)) return unknown('numbers within reckoning');
  return { value, because: { formula, ...gathered(from) } };
}
