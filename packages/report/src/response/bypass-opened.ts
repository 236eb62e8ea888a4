import {
  type OperatingPoint,
  type Response,
  response,
  type SmallSignalOptions,
} from '@setwright/analysis';
import {
  type Circuit,
  conductionOf,
  isSupply,
  type Part,
  rolesOf,
  type Value,
} from '@setwright/circuit';

/** What an opened plate-supply bypass does to the signal, beside a whole one. */
export interface BypassOpened {
  /** Undefined where there is none: what the supply then does as it ages. */
  readonly condenser: Part | undefined;
  /** Radio tubes whose plates are fed where it hangs. */
  readonly tubes: readonly string[];
  /** The battery or eliminator behind it, and the tap that the plates hang on. */
  readonly supply: Part;
  readonly tap: string;
  /** With the supply as it is, then with one as bad as those that are told of. */
  readonly cases: readonly BypassCase[];
}

/** The signal with a bypass open. */
export interface BypassCase {
  /** Ohms of the supply up to the tap; undefined where the text does not tell them. */
  readonly ohms: number | undefined;
  /** Whether it is the supply as it is, or one as bad as those that are told of. */
  readonly isOwn: boolean;
  readonly losses: readonly {
    /** Hertz of the station, or of the intermediate frequency. */
    readonly frequency: number;
    /** Decibels lost at the detector, below nothing where it is louder; undefined where it sings. */
    readonly decibels: number | undefined;
  }[];
}

/** Ohms of a dry block near its end. Common practice. */
const TIRED = 500;

/** Farads from which on a condenser bypasses a supply, and volts that lie across one at least. */
const LEAST_FARADS = 1e-9;
const LEAST_VOLTS = 10;

/** Bypasses that are told of. */
const MOST = 3;

/** Roles of the stages whose plates carry radio current of use. */
const radioRoles: ReadonlySet<string> = new Set(['radio', 'intermediate', 'mixer']);

/**
 * What opening each bypass of the radio stages' plate supply does, by the set's own numbers. It
 * leaves every direct voltage as it was; the signal is solved with the supply as it is, and with
 * 500 ohms in it up to the tap.
 *
 * @param whole the response of the set as it is, at its stations
 */
export function bypassesOpened(
  circuit: Circuit,
  point: OperatingPoint,
  whole: Response,
  options: SmallSignalOptions,
): readonly BypassOpened[] {
  const known = whole.stations.filter(({ detectorVolts }) => detectorVolts !== undefined);
  // Where a condenser stands at its stop the set is out of tune, and tells of nothing else.
  const inReach = known.filter(({ alignment }) => alignment.circuits.every((each) => each.reaches));
  const heard = inReach.length > 0 ? inReach : known;
  const ends = [...new Set([heard[0], heard.at(-1)])].flatMap((each) => each ?? []);
  if (ends.length === 0) return [];
  const stations = ends.map(({ frequency }) => frequency);
  return bypassesOf(circuit, point)
    .slice(0, MOST)
    .flatMap(({ condenser, tubes, supply, tap }): readonly BypassOpened[] => {
      const open = new Map([
        ...(options.condensers ?? []),
        ...(condenser ? [[condenser.name, 0] as const] : []),
      ]);
      const lossesIn = (set: Circuit): BypassCase['losses'] => {
        const found = response(set, point, { ...options, condensers: open, stations });
        const between = whole.intermediate;
        // A mixer hears as before: what suffers is behind it.
        if (between && found.intermediate) {
          const decibels = lossOf(between.gain, found.intermediate.gain);
          return [{ frequency: between.frequency, decibels }];
        }
        return found.stations.map(({ frequency, detectorVolts }, index) => ({
          frequency,
          decibels: lossOf(ends[index]?.detectorVolts, detectorVolts),
        }));
      };
      const share = supply.kind === 'battery' ? shareUpTo(supply, tap) : undefined;
      const own = supply.values.resistance?.value;
      const base = { condenser, tubes, supply, tap };
      const asIs = condenser && {
        ohms: own === undefined || share === undefined ? undefined : own * share,
        isOwn: true,
        losses: lossesIn(circuit),
      };
      const bad = share !== undefined && {
        ohms: TIRED,
        isOwn: false,
        losses: lossesIn(withResistance(circuit, supply, TIRED / share)),
      };
      const cases = [asIs, bad].flatMap((each) => each || []);
      return cases.length > 0 ? [{ ...base, cases }] : [];
    });
}

/** The share of a battery's cells that lie between its lowest tap and another one. */
function shareUpTo({ supplyTaps }: Part, tap: string): number | undefined {
  const volts = supplyTaps.flatMap((each) => each.volts ?? []);
  const lowest = Math.min(...volts);
  const here = supplyTaps.find(({ end }) => end === tap)?.volts;
  const share = here === undefined ? 0 : (here - lowest) / (Math.max(...volts) - lowest);
  return share > 0 && Number.isFinite(share) ? share : undefined;
}

function lossOf(before: number | undefined, after: number | undefined): number | undefined {
  if (before === undefined || after === undefined || !(before > 0) || !(after > 0))
    return undefined;
  return 20 * Math.log10(before / after);
}

interface Bypass {
  readonly condenser: Part | undefined;
  readonly tubes: readonly string[];
  readonly supply: Part;
  readonly tap: string;
}

/**
 * The condensers from where radio plates are fed to where their filaments are, and the taps that
 * feed radio plates with none.
 */
function bypassesOf(circuit: Circuit, point: OperatingPoint): readonly Bypass[] {
  const fed = new Map<number, Set<string>>();
  for (const tube of circuit.parts) {
    const roles = rolesOf(circuit, tube);
    if (tube.kind !== 'tube' || !roles.some((role) => radioRoles.has(role))) continue;
    for (const junction of feedOf(circuit, point, tube)) {
      const known = fed.get(junction) ?? new Set();
      fed.set(junction, known.add(tube.name));
    }
  }
  const bypassed = new Set<number>();
  const bypasses = circuit.parts.flatMap((condenser): readonly Bypass[] => {
    const farads = condenser.values.capacitance?.value ?? 0;
    const [first, second] = condenser.ends;
    if (condenser.kind !== 'condenser' || farads < LEAST_FARADS || !first || !second) return [];
    const volts = point.voltage(first.id, second.id);
    if (volts === undefined || Math.abs(volts) < LEAST_VOLTS) return [];
    const high = volts > 0 ? first : second;
    bypassed.add(high.junction);
    const tubes = [...(fed.get(high.junction) ?? [])];
    const behind = tubes.length > 0 ? supplyBehind(circuit, point, high.junction) : undefined;
    return behind ? [{ condenser, tubes, ...behind }] : [];
  });
  const bare = [...fed].flatMap(([junction, tubes]): readonly Bypass[] => {
    const names = circuit.junctions[junction]?.terminals ?? [];
    const isTap = names.some((id) => isSupplyEnd(circuit, id));
    const behind = isTap && !bypassed.has(junction) && supplyBehind(circuit, point, junction);
    return behind ? [{ condenser: undefined, tubes: [...tubes], ...behind }] : [];
  });
  return [...bypasses, ...bare];
}

function isSupplyEnd({ partOfEnd }: Circuit, terminal: string): boolean {
  const part = partOfEnd.get(terminal);
  return part !== undefined && isSupply(part);
}

/** Junctions that a plate's current comes to through windings on air, up to its supply. */
function feedOf(circuit: Circuit, point: OperatingPoint, tube: Part): readonly number[] {
  const plate = tube.ends.find(({ name }) => name === 'plate')?.junction;
  if (plate === undefined) return [];
  const found = new Set<number>();
  const seen = new Set([plate]);
  const { at } = conductionOf(circuit, point.settings);
  for (const here of seen) {
    for (const { part: name, fromJunction, toJunction, direct } of at[here] ?? []) {
      const part = circuit.partNamed.get(name);
      if (!part || direct.kind !== 'conducts' || !isOnAir(circuit, part)) continue;
      const there = fromJunction === here ? toJunction : fromJunction;
      seen.add(there);
      found.add(there);
    }
  }
  return [...found];
}

function isOnAir(circuit: Circuit, part: Part): boolean {
  if (part.kind !== 'winding') return part.kind === 'variometer';
  const owner = circuit.partNamed.get(part.owner ?? '');
  return owner?.kind === 'coil' || owner?.words.has('air') === true;
}

/** The plate supply behind a junction, through wire and resistances, and its tap there. */
function supplyBehind(
  circuit: Circuit,
  point: OperatingPoint,
  from: number,
): Pick<Bypass, 'supply' | 'tap'> | undefined {
  const seen = new Set([from]);
  const { at } = conductionOf(circuit, point.settings);
  for (const here of seen) {
    for (const { part: name, fromJunction, toJunction, direct } of at[here] ?? []) {
      const part = circuit.partNamed.get(name);
      const tap = part?.ends.find(({ junction }) => junction === here)?.name;
      if (part && isSupply(part) && tap !== undefined) return { supply: part, tap };
      if (!part || direct.kind !== 'conducts' || !leadsOn(part)) continue;
      seen.add(fromJunction === here ? toJunction : fromJunction);
    }
  }
  return undefined;
}

/** Whether a part is no more in the way than the supply itself: wire, contacts, small resistances. */
function leadsOn({ kind, values }: Part): boolean {
  switch (kind) {
    case 'lead':
    case 'fuse':
    case 'switch':
    case 'selector':
    case 'jack':
    case 'lamp':
      return true;
    case 'resistor':
      return (values.resistance?.value ?? Number.POSITIVE_INFINITY) <= TIRED;
    default:
      return false;
  }
}

/** The same set with another resistance in a supply. */
function withResistance(circuit: Circuit, supply: Part, ohms: number): Circuit {
  const resistance: Value = {
    value: ohms,
    text: `${ohms} ohms`,
    dimension: 'resistance',
    place: supply.place,
  };
  const tired = { ...supply, values: { ...supply.values, resistance } };
  return {
    ...circuit,
    parts: circuit.parts.map((part) => (part === supply ? tired : part)),
    partNamed: new Map([...circuit.partNamed, [supply.name, tired]]),
    partOfEnd: new Map(
      [...circuit.partOfEnd].map(([id, part]) => [id, part === supply ? tired : part]),
    ),
  };
}
