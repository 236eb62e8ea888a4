import {
  asOn,
  type Bench,
  type Circuit,
  conductionOf,
  isBias,
  isFilamentSupply,
  isSupply,
  type Part,
  type Place,
  spread,
  stepFrom,
  zeroTap,
} from '@setwright/circuit';
import { formatQuantity } from '@setwright/units';
import { errorOf, type Meter, meterOf, scaleFor } from '../chart/meter.ts';
import { calledSo, type Taken } from '../chart/spot.ts';
import { takenSpots } from '../chart/spots.ts';

/** Readings that cannot all be true, whatever is faulty. */
export interface Contradiction {
  /** What they say, and why it cannot be. */
  readonly words: string;
  /** What is to be done about it. */
  readonly cure: string;
  /** The readings, the one to be taken once more first. */
  readonly places: readonly Place[];
  readonly parts: readonly string[];
  /** Said of two readings of one point, of which either may be struck out. */
  readonly isTwice?: true;
}

/** A reading that was taken, with how far it may be off. */
interface Read extends Taken {
  readonly read: number;
  readonly error: number;
  readonly place: Place;
}

/** Figures that people write down are rounded by this share. */
const ROUNDED = 0.01;
/** A fresh battery gives so much more than it is called, as a share. */
const FRESH = 0.1;

/**
 * Readings of a bench that contradict one another by the laws of currents and volts alone, with
 * the meter's accuracy allowed for. Never throws.
 */
export function contradictionsOf(circuit: Circuit, bench: Bench): readonly Contradiction[] {
  const meter = meterOf(bench);
  const readings = takenSpots(circuit, bench).flatMap((taken) => readOf(taken, meter) ?? []);
  return [
    ...takenTwice(circuit, readings, meter),
    ...currentsHome(circuit, readings),
    ...moreThanThereIs(circuit, bench, readings),
    ...litWithoutCurrent(circuit, bench, readings),
    ...moreInPlace(circuit, readings),
  ];
}

function readOf(taken: Taken, meter: Meter): Read | undefined {
  const { read, place, quantity, range } = taken;
  if (read === undefined || Number.isNaN(read) || !place) return undefined;
  if (quantity !== 'resistance' && !Number.isFinite(read)) return undefined;
  const error = Number.isFinite(read)
    ? errorOf(meter, quantity, read, range ?? scaleFor(meter, quantity, read)) +
      ROUNDED * Math.abs(read)
    : 0;
  return { ...taken, read, place, error };
}

function said({ read, quantity }: Read): string {
  return read === Number.POSITIVE_INFINITY ? 'open' : formatQuantity(read, quantity);
}

function called(circuit: Circuit, { at, to, across, quantity }: Read): string {
  if (across !== undefined) return across;
  const probe = calledSo(circuit, at);
  if (quantity === 'current') return `the ${probe} lead`;
  const isOwn = to !== undefined && circuit.partOfEnd.get(at) === circuit.partOfEnd.get(to);
  return to === undefined || isOwn ? probe : `${probe} to ${calledSo(circuit, to)}`;
}

function listed(words: readonly string[]): string {
  return words.length <= 1
    ? (words[0] ?? '')
    : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`;
}

function partsOf(circuit: Circuit, readings: readonly Read[]): readonly string[] {
  return [
    ...new Set(
      readings.flatMap(({ at, across }) => across ?? circuit.partOfEnd.get(at)?.name ?? []),
    ),
  ];
}

/** One spot, one meter, two values. */
function takenTwice(
  circuit: Circuit,
  readings: readonly Read[],
  { isPointer }: Meter,
): Contradiction[] {
  const before = new Map<string, Read>();
  const found: Contradiction[] = [];
  for (const now of readings) {
    const { at, to, quantity, lifted, tubesOut, range } = now;
    // On another range a pointer instrument draws another current.
    const scale = isPointer && quantity === 'voltage' ? range : undefined;
    const key = [quantity, at, to, lifted, tubesOut, scale].join(' ');
    const was = before.get(key);
    before.set(key, now);
    if (!was || was.read === now.read) continue;
    const isFar = !(Math.abs(was.read - now.read) <= was.error + now.error);
    if (!isFar) continue;
    found.push({
      words: `${called(circuit, now)} is once ${said(was)} and once ${said(now)}.`,
      cure: 'Take it once more, and strike out the one that was wrong; where it really wanders, look for a loose contact there.',
      places: [now.place, was.place],
      parts: partsOf(circuit, [now]),
      isTwice: true,
    });
  }
  return found;
}

/** What the leads of a supply give out comes home by its common lead. */
function currentsHome(circuit: Circuit, readings: readonly Read[]): Contradiction[] {
  return circuit.parts.flatMap((supply): Contradiction[] => {
    if (!isSupply(supply) || supply.ends.length < 2) return [];
    const zero = supply.ends.find(({ name }) => name === zeroTap(supply)?.end)?.id;
    const own = readings.filter(
      ({ quantity, at, tubesOut }) =>
        quantity === 'current' && !tubesOut && circuit.partOfEnd.get(at)?.name === supply.name,
    );
    const home = own.find(({ at }) => at === zero);
    const out = new Map(own.filter(({ at }) => at !== zero).map((each) => [each.at, each]));
    const isWhole = supply.ends.every(
      ({ id, junction }) =>
        id === zero || out.has(id) || (circuit.junctions[junction]?.terminals.length ?? 0) <= 1,
    );
    if (!home || out.size === 0 || !isWhole) return [];
    const leads = [...out.values()];
    const sum = leads.reduce((all, { read }) => all + read, 0);
    const error = leads.reduce((all, each) => all + each.error, home.error);
    if (Math.abs(sum - home.read) <= error) return [];
    const names = listed(leads.map(({ at }) => calledSo(circuit, at)));
    const all = [home, ...leads];
    return [
      {
        words: `${calledSo(circuit, home.at)} carries ${said(home)} home, but ${names} ${leads.length > 1 ? 'together give' : 'gives'} ${formatQuantity(sum, 'current')}: what goes out must come home, whatever is faulty.`,
        cure: `Take the current in ${listed(all.map(({ at }) => calledSo(circuit, at)))} once more, all with the set in one state.`,
        places: all.map(({ place }) => place),
        parts: [supply.name],
      },
    ];
  });
}

/**
 * Volts along the way from a tube's plate to its supply cannot add up to more than the supply has,
 * and A with it; a meter only ever makes them less.
 */
function moreThanThereIs(
  circuit: Circuit,
  bench: Bench,
  readings: readonly Read[],
): Contradiction[] {
  const supplies = circuit.parts.filter(isSupply);
  // Without load an eliminator climbs to nobody knows where.
  if (supplies.length === 0 || supplies.some(({ kind }) => kind === 'eliminator')) return [];
  const most = supplies.reduce((sum, part) => sum + mostVolts(part, bench, readings), 0);
  const volts = readings.filter(({ quantity }) => quantity === 'voltage');
  const found: Contradiction[] = [];
  const told = new Set<Read>();
  const conduction = conductionOf(circuit, asOn(circuit).settings);
  for (const plate of volts) {
    const end = circuit.endNamed.get(plate.at);
    if (end?.name !== 'plate' || plate.to === undefined) continue;
    const way = wayToSupply(conduction, end.junction);
    const drops = volts.filter(
      ({ across, tubesOut }) =>
        across !== undefined && way.has(across) && tubesOut === plate.tubesOut,
    );
    if (drops.length === 0) continue;
    const all = [plate, ...drops];
    const sum = all.reduce((whole, { read }) => whole + Math.abs(read), 0);
    const error = all.reduce((whole, each) => whole + each.error, 0);
    if (plate.read <= 0 || sum - error <= most) continue;
    for (const each of all) told.add(each);
    found.push({
      words: `${called(circuit, plate)} at ${said(plate)} and ${listed(drops.map((each) => `${said(each)} across ${called(circuit, each)}`))} make ${formatQuantity(sum, 'voltage')}, more than all the batteries of the set have together: ${formatQuantity(most, 'voltage')}.`,
      cure: `Take ${listed(all.map((each) => called(circuit, each)))} once more, and look at the range the meter stands on.`,
      places: all.map(({ place }) => place),
      parts: partsOf(circuit, all),
    });
  }
  for (const each of volts) {
    if (told.has(each) || Math.abs(each.read) - each.error <= most) continue;
    found.push({
      words: `${called(circuit, each)} reads ${said(each)}, more than all the batteries of the set have together: ${formatQuantity(most, 'voltage')}.`,
      cure: 'Take it once more, and look at the range the meter stands on.',
      places: [each.place],
      parts: partsOf(circuit, [each]),
    });
  }
  return found;
}

/** The most that a battery can have: as it was found, or fresh; or what was read at its own posts. */
function mostVolts(supply: Part, bench: Bench, readings: readonly Read[]): number {
  const found = bench.entries.flatMap(({ kind, at, value }) =>
    kind === 'actual' && at !== undefined && value && supply.ends.some(({ id }) => id === at)
      ? [Math.abs(value.value) * (1 + ROUNDED)]
      : [],
  );
  const read = readings.flatMap(({ at, to, quantity, read: volts, error }) =>
    quantity === 'voltage' && [at, to].every((id) => supply.ends.some((end) => end.id === id))
      ? [Math.abs(volts) + error]
      : [],
  );
  const fresh = (1 + FRESH) * spread(supply);
  // Where what was found of a tap cannot be read, it may have been the most.
  const isAllRead = bench.entries.every(({ kind, value }) => kind !== 'actual' || value);
  const isWholeFound = isAllRead && found.length > 0 && Math.max(...found) >= 0.5 * spread(supply);
  return Math.max(isWholeFound ? 0 : fresh, ...found, ...read);
}

/** Parts on the shortest way of plate current to a supply. */
function wayToSupply(
  conduction: ReturnType<typeof conductionOf>,
  plate: number,
): ReadonlySet<string> {
  const { circuit, at } = conduction;
  const cameBy = new Map<number, { part: string; from: number } | undefined>([[plate, undefined]]);
  for (const [here] of cameBy) {
    for (const branch of at[here] ?? []) {
      const part = circuit.partNamed.get(branch.part);
      if (!part || branch.direct.kind === 'blocks' || part.kind === 'tube') continue;
      if (isSupply(part)) {
        const way = new Set<string>();
        for (let step = cameBy.get(here); step; step = cameBy.get(step.from)) way.add(step.part);
        return way;
      }
      const { junction } = stepFrom(branch, here);
      if (!cameBy.has(junction)) cameBy.set(junction, { part: branch.part, from: here });
    }
  }
  return new Set();
}

/** Between nothing and the whole battery: then a current drops the rest. */
const SOME = 0.1;
const MOST_OF_IT = 0.9;
/** Of its rated current a filament at fewer volts draws no less than in proportion, and this. */
const AT_LEAST = 0.8;

/** A filament that stands between nothing and the full battery has current dropping the rest. */
function litWithoutCurrent(
  circuit: Circuit,
  bench: Bench,
  readings: readonly Read[],
): Contradiction[] {
  const supplies = circuit.parts.filter(
    (part) => isSupply(part) && isFilamentSupply(part) && !isBias(part),
  );
  const supply = supplies[0];
  const [plus] = [...(supply?.supplyTaps ?? [])].sort((a, b) => (b.volts ?? 0) - (a.volts ?? 0));
  const lead = supply?.ends.find(({ name }) => name === plus?.end);
  if (!supply || !lead || supplies.length > 1 || isSeries(circuit)) return [];
  const drawn = readings.find(
    ({ quantity, at, tubesOut }) => quantity === 'current' && at === lead.id && !tubesOut,
  );
  const whole = mostVolts(supply, bench, []);
  if (!drawn) return [];
  const own = new Set(supply.ends.map(({ junction }) => junction));
  const groups = new Map<string, { read: Read; least: number }>();
  for (const read of readings) {
    const tube = circuit.partOfEnd.get(read.at);
    const rated = tube?.tubeType?.filamentVolts;
    const amperes = tube?.tubeType?.filamentAmperes;
    if (tube?.kind !== 'tube' || read.quantity !== 'voltage' || !rated || !amperes) continue;
    const ends = ['filament+', 'filament-'].map((name) =>
      tube.ends.find((end) => end.name === name),
    );
    if (read.at !== ends[0]?.id || read.to !== ends[1]?.id || read.tubesOut) continue;
    const volts = Math.abs(read.read);
    if (volts - read.error < SOME * rated) continue;
    if (volts + read.error > MOST_OF_IT * whole) continue;
    const least = AT_LEAST * amperes * Math.min(1, (volts - read.error) / rated);
    // Tubes on one rheostat share what drops the rest: one of them alight is enough.
    const key = ends
      .flatMap((end) => (end && !own.has(end.junction) ? [end.junction] : []))
      .sort((a, b) => a - b)
      .join(' ');
    const known = groups.get(key);
    if (!known || known.least > least) groups.set(key, { read, least });
  }
  const lit = [...groups.values()];
  const least = lit.reduce((sum, each) => sum + each.least, 0);
  if (lit.length === 0 || drawn.read + drawn.error >= least) return [];
  return [
    {
      words: `${listed(lit.map(({ read }) => `${called(circuit, read)} at ${said(read)}`))} ${lit.length > 1 ? 'stand' : 'stands'} below the battery, so that filaments draw ${formatQuantity(least, 'current', 'period', 2)} or more, but the ${calledSo(circuit, drawn.at)} lead carries ${said(drawn)}.`,
      cure: `Take the current in ${calledSo(circuit, drawn.at)} once more, and the filament volts with it.`,
      places: [drawn.place, ...lit.map(({ read }) => read.place)],
      parts: [
        supply.name,
        ...partsOf(
          circuit,
          lit.map(({ read }) => read),
        ),
      ],
    },
  ];
}

/** Whether the filament of one tube stands on that of another. */
function isSeries(circuit: Circuit): boolean {
  const tubes = circuit.parts.filter(({ kind }) => kind === 'tube');
  const on = (name: string) =>
    new Set(tubes.flatMap(({ ends }) => ends.find((end) => end.name === name)?.junction ?? []));
  const minus = on('filament-');
  return [...on('filament+')].some((junction) => minus.has(junction));
}

/** A part in its place has ways beside it: it never shows more ohms than by itself. */
function moreInPlace(circuit: Circuit, readings: readonly Read[]): Contradiction[] {
  const ohms = readings.filter(({ quantity }) => quantity === 'resistance');
  return ohms.flatMap((inside): Contradiction[] => {
    if (inside.lifted || inside.across === undefined) return [];
    const alone = ohms.find(({ lifted, across }) => lifted && across === inside.across);
    if (!alone || !(inside.read - inside.error > alone.read + alone.error + 1)) return [];
    return [
      {
        words: `${inside.across} shows ${said(inside)} in its place and ${said(alone)} by itself: what lies beside it can only make it less.`,
        cure: `Take every battery off its posts and measure ${inside.across} once more.`,
        places: [inside.place, alone.place],
        parts: partsOf(circuit, [inside]),
      },
    ];
  });
}
