import {
  type OperatingPoint,
  operatingPoint,
  readingAtFrequency,
  type SignalGain,
  signalGains,
  type TunedDial,
  tunedCircuits,
  tunedDial,
} from '@setwright/analysis';
import { type FaultTable, supposedTable } from '@setwright/bench';
import {
  asOn,
  type Circuit,
  conductionOf,
  emitterOf,
  type Part,
  traceDirectCurrent,
} from '@setwright/circuit';
import { dialColumns, dialReadings } from '../../src/dials/dial-readings.ts';
import { responseOf, type SetResponse } from '../../src/response/response-of.ts';
import {
  bypassWords,
  intermediateWords,
  regenerationWords,
} from '../../src/response/signal-words.ts';
import { cureWords, verdictWords } from '../../src/response/squeal-words.ts';
import { stationsIn } from '../../src/tour/grounds.ts';
import { liveTerminals, zeroOf } from '../../src/tour/steps/safety.ts';
import type { TourFact, TourNumber } from '../../src/tour/tour.ts';
import { bandOf } from '../../src/values/bands.ts';
import { type SetValues, valuesOf } from '../../src/values/values-of.ts';

/** A set, and what the engine says of it, asked afresh. */
export interface Witness {
  readonly circuit: Circuit;
  readonly values: SetValues;
  readonly response: SetResponse;
  readonly supposed: FaultTable;
  readonly point: OperatingPoint;
  readonly gains: readonly SignalGain[];
}

export function witnessOf(circuit: Circuit): Witness {
  const band = bandOf(circuit, tunedCircuits(circuit, asOn(circuit).settings));
  const [bench] = circuit.benches;
  const values = valuesOf(circuit, 'period');
  const point = operatingPoint(circuit);
  // Those that the report of all values tells of, radio stages at all of them.
  const stations = [
    ...new Set(
      values.parts.flatMap(({ rows }) =>
        rows.flatMap(({ quantity, at }) =>
          quantity === 'gain' && at !== undefined && at > 20_000 ? [at] : [],
        ),
      ),
    ),
  ].sort((a, b) => a - b);
  return {
    circuit,
    values,
    response: responseOf(circuit, stationsIn(band)),
    supposed: supposedTable(circuit, circuit.supposes, bench ? { bench } : {}),
    point,
    gains: signalGains(circuit, point, stations).gains,
  };
}

/** What the engine says that a number is, in SI units. */
export function asked(witness: Witness, { source }: TourNumber): number | undefined {
  const { circuit, response, supposed, point } = witness;
  switch (source.from) {
    case 'values':
      return fromEngine(witness, source);
    case 'volts':
      return point.voltage(source.of, source.above);
    case 'text':
      return circuit.partNamed.get(source.part)?.values[source.slot]?.value;
    case 'band':
      return circuit.tunes?.[source.edge].value;
    case 'type': {
      const type = circuit.partNamed.get(source.tube)?.tubeType;
      return source.what === 'grid-plate'
        ? type?.capacitances['grid plate']
        : source.what === 'filament'
          ? type?.filamentVolts
          : type?.amplification;
    }
    case 'dial':
      return dialReadingsOf(circuit, source.condenser, source.at).at(0);
    case 'following': {
      const { lines } = dialReadings(dialColumns(circuit), [source.at]);
      const found = lines.flatMap(({ following }) => following.flat());
      return Math.abs(
        found.find(({ circuit: name }) => name === source.circuit)?.off ?? Number.NaN,
      );
    }
    case 'response': {
      const heard = response.stations.find(
        ({ heard: each }) => each.frequency === source.at,
      )?.heard;
      const stage = heard?.stages?.find(({ tube }) => tube === source.place);
      const volts = stage?.gridVolts ?? heard?.detectorVolts;
      // Told of a thousandth of a volt in the aerial.
      return volts === undefined ? undefined : volts / 1000;
    }
    case 'audio':
      return response.audio?.[source.edge];
    case 'reading': {
      const { chart, effects } = supposed;
      const at = chart.readings.findIndex(({ id }) => id === source.spot);
      const of =
        source.suppose === undefined
          ? chart.readings[at]?.expected
          : effects[source.suppose]?.readings[at];
      return of?.[source.which];
    }
    case 'left':
      return supposed.effects[source.suppose]?.[source.of];
    case 'steady': {
      const { chart, effects } = supposed;
      const effect = effects[source.suppose];
      if (!effect) return undefined;
      const known = chart.readings.filter(({ expected }, at) => expected && effect.readings[at]);
      return known.length - effect.seenBy.length;
    }
    case 'reactance': {
      const farads = circuit.partNamed.get(source.part)?.values.capacitance?.value;
      return farads && 1 / (2 * Math.PI * source.at * farads);
    }
  }
}

type FromValues = Extract<TourNumber['source'], { from: 'values' }>;

/** The analysis itself where it is one call away, else the report of all values. */
function fromEngine(witness: Witness, source: FromValues): number | undefined {
  const { circuit, values, point, gains } = witness;
  const tube = point.tubes.find((each) => each.tube === source.part);
  switch (source.quantity) {
    case 'bias':
      return tube?.bias?.value;
    case 'plate-voltage':
      return tube?.plateVolts?.value;
    case 'plate-current':
      return tube?.plateCurrent?.value;
    case 'screen-voltage':
      return tube?.screenVolts?.value;
    case 'filament-voltage':
      return tube?.filamentVolts?.value;
    case 'transconductance':
      return tube?.transconductance?.value;
    case 'lowest-frequency':
    case 'highest-frequency': {
      const tuned = tunedCircuits(circuit, asOn(circuit).settings).find(
        ({ name }) => name === source.part,
      );
      return source.quantity === 'lowest-frequency' ? tuned?.lowest.value : tuned?.highest.value;
    }
    case 'gain':
      return gains.find(
        ({ from, to, frequency }) =>
          from === source.part && to === source.to && frequency === source.at,
      )?.gain;
    default:
      return values.parts
        .flatMap(({ rows }) => rows)
        .find(
          ({ part, quantity, at, to }) =>
            part === source.part &&
            quantity === source.quantity &&
            at === source.at &&
            to === source.to,
        )?.value;
  }
}

function dialReadingsOf(circuit: Circuit, condenser: string, frequency: number): number[] {
  const all = tunedCircuits(circuit, asOn(circuit).settings);
  const columns = dialColumns(circuit).columns.filter(
    ({ of, above }) => of.circuit.tuner === condenser && above >= 0,
  );
  return columns.flatMap(({ of, above }) => {
    const own = all.find(({ name }) => name === of.circuit.name);
    const dial: TunedDial | undefined = above === 0 && own ? (tunedDial(circuit, own) ?? of) : of;
    // A gang's trimmers are set first, which the column knows.
    return readingAtFrequency(of.circuit.gang ? of : dial, frequency + above) ?? [];
  });
}

/** What is wrong with a fact; nothing for one that holds. */
export function untrue(witness: Witness, fact: TourFact): string | undefined {
  const { circuit, response, supposed } = witness;
  switch (fact.kind) {
    case 'path':
      return brokenPath(circuit, fact.path);
    case 'joined': {
      const nets = new Set(fact.terminals.map((id) => circuit.endNamed.get(id)?.junction));
      return nets.size === 1 && !nets.has(undefined) ? undefined : `${fact.terminals} are apart`;
    }
    case 'feeds': {
      const [path] = traceDirectCurrent(circuit, fact.electrode);
      const last = path?.steps.at(-1)?.to ?? fact.electrode;
      const tap = circuit.endNamed.get(fact.tap)?.junction;
      return !path?.blocked && circuit.endNamed.get(last)?.junction === tap
        ? undefined
        : `${fact.tap} does not feed ${fact.electrode}`;
    }
    case 'biases': {
      const [path] = traceDirectCurrent(circuit, `${fact.tube}.grid`);
      return path && !path.blocked && path.steps.some(({ part }) => part === fact.supply)
        ? undefined
        : `${fact.supply} is not in the way of the grid of ${fact.tube}`;
    }
    case 'words': {
      const known = [
        verdictWords(response, 'period'),
        regenerationWords(response, 'period'),
        cureWords(response, 'period'),
        intermediateWords(response, 'period'),
        ...response.bypasses.map((each) => bypassWords(each, 'period')),
        ...supposed.effects.map(({ dangers }) => `Switch off at once, for ${dangers.join('; ')}.`),
      ];
      return known.includes(fact.words) ? undefined : `nobody says: ${fact.words}`;
    }
    case 'live': {
      const zero = zeroOf(circuit);
      const net = circuit.endNamed.get(fact.terminal)?.junction;
      const live = zero === undefined ? [] : liveTerminals(circuit, zero, fact.switches);
      return live.some(({ id }) => circuit.endNamed.get(id)?.junction === net)
        ? undefined
        : `${fact.terminal} is not live`;
    }
  }
}

type Path = Extract<TourFact, { kind: 'path' }>['path'];

/** Where a path is none: a lead that does not join, or a part that does not pass what it should. */
function brokenPath(
  circuit: Circuit,
  { kind, from, steps, to, heading }: Path,
): string | undefined {
  const netOf = (id: string | undefined) => circuit.endNamed.get(id ?? '')?.junction;
  const joined = joinedBy(circuit);
  let at = netOf(from);
  for (const step of steps) {
    const part = circuit.partNamed.get(step.part);
    if (!part) return `${heading}: there is no ${step.part}`;
    const [enters, leaves] = [netOf(step.in), netOf(step.out)];
    if (step.coupled) {
      if (part.kind !== 'winding') return `${heading}: ${step.part} is no winding`;
    } else if (at !== undefined && !joined(at, enters))
      return `${heading}: nothing joins ${step.in} to what is before it`;
    if (!passes(circuit, kind, part, step.in, step.out))
      return `${heading}: ${step.part} does not pass it`;
    at = leaves;
  }
  if (to !== undefined && at !== undefined && !joined(at, netOf(to)))
    return `${heading}: it does not come to ${to}`;
  return undefined;
}

/** Whether two junctions are one, or are joined by closed contacts. */
function joinedBy(circuit: Circuit) {
  const { branches } = conductionOf(circuit, asOn(circuit).settings);
  return (one: number, other: number | undefined): boolean => {
    const seen = new Set([one]);
    for (const here of seen)
      for (const { direct, fromJunction: a, toJunction: b } of branches)
        if (direct.kind === 'conducts' && (direct.ohms ?? 0) < 1)
          if (a === here || b === here) seen.add(a === here ? b : a);
    return other !== undefined && seen.has(other);
  };
}

/** Whether what runs on a path can pass a part from one of its ends to another. */
function passes(
  circuit: Circuit,
  kind: Path['kind'],
  part: Part,
  from: string,
  to: string,
): boolean {
  const own = (id: string): boolean => part.ends.some((end) => end.id === id);
  if (part.kind === 'tube')
    return kind === 'direct'
      ? own(from) && (to === emitterOf(part)?.id || to.includes('.filament'))
      : from.endsWith('.grid')
        ? to.endsWith('.plate')
        : own(from) && own(to);
  if (part.kind === 'condenser') return kind !== 'direct' && own(from) && own(to);
  if (kind !== 'direct') return true;
  const { branches } = conductionOf(circuit, asOn(circuit).settings);
  return branches.some(({ part: name, direct }) => name === part.name && direct.kind !== 'blocks');
}
