import { batteryEnd, errorOf, meterOf, scaleFor } from '@setwright/bench';
import {
  type Bench,
  type Circuit,
  type Finding,
  isSupply,
  type Part,
  type Place,
  spread,
  zeroTap,
} from '@setwright/circuit';
import { formatQuantity } from '@setwright/units';
import type { Check } from '../check.ts';
import { benchExample } from '../examples/bench-example.ts';
import { finding } from '../words/finding.ts';

/** Ohms inside a battery that are so many times those written are those of a tired one. */
const TIRED_TIMES = 3;
/** Figures that people write down are rounded by this share. */
const ROUNDED = 0.01;

/** A battery that a bench found at its end. */
export const batteryTired: Check = {
  id: 'battery-tired',
  group: 'The bench',
  severity: 'information',
  summary:
    'A battery whose volts on a bench are below the end of its service, or which sags as if it had several times the ohms that are written for it.',
  why: 'A tired block howls and putters before the set grows weak, and what it does looks like a fault of the set.',
  silent: [
    'Volts above the end of the kind of battery that the text says: 36 of a dry block of 45, 1.1 of a dry cell of 1.5 for filaments, 1.8 of a lead cell of 2.',
    'Volts that the meter’s accuracy could still put above it.',
    'A battery of which the text does not say whether it is dry or storage; an eliminator.',
    'The ohms inside, where only one of the two readings, with the tubes in and out, was taken, the current of a lead is not known, or no ohms are written.',
  ],
  source:
    'Radio Record (New Zealand), 4 May 1928: a block of 45 volts is done at 36, under load; the ends of cells for filaments and three times the ohms are common practice, from memory',
  needsWholeText: true,
  fails: benchExample('actual B+45 44 V', 'actual B+90 71 V'),
  passes: benchExample('actual B+45 44 V', 'actual B+90 88 V'),
  find({ circuit }) {
    return [...circuit.benches.flatMap((bench) => runDown(circuit, bench)), ...saggingIn(circuit)];
  },
};

/** Volts of a tap, with how far they may be off. */
interface TapVolts {
  readonly tap: string;
  readonly printed: number;
  readonly found: number;
  readonly error: number;
  readonly place: Place | undefined;
}

/** The blocks of every battery, from the lowest tap that was found to the highest. */
function runDown(circuit: Circuit, bench: Bench): Finding[] {
  const meter = meterOf(bench);
  return circuit.parts.flatMap((supply): Finding[] => {
    const end = batteryEnd(supply);
    if (!end) return [];
    const found = supply.supplyTaps.flatMap(({ end: tap, volts }): TapVolts[] => {
      const id = supply.ends.find(({ name }) => name === tap)?.id;
      const entry = bench.entries.findLast(({ kind, at }) => kind === 'actual' && at === id);
      if (volts === 0) return [{ tap, printed: 0, found: 0, error: 0, place: undefined }];
      if (volts === undefined || entry?.value === undefined) return [];
      const { value } = entry.value;
      const error = errorOf(meter, 'voltage', value, scaleFor(meter, 'voltage', value));
      return [{ tap, printed: volts, found: value, error, place: entry.place }];
    });
    const zero = found.find(({ printed }) => printed === 0);
    const taps = found.sort((a, b) => a.printed - b.printed);
    return taps.flatMap((upper, at): Finding[] => {
      const isBelowZero = upper.printed < 0;
      const next = isBelowZero ? (taps[at + 1] ?? zero) : (taps[at - 1] ?? zero);
      const { place } = upper;
      if (!next || !place || upper.printed === next.printed) return [];
      const printed = Math.abs(upper.printed - next.printed);
      const left = Math.abs(upper.found) - Math.abs(next.found);
      const least = end.share * printed;
      if (!(left + upper.error + next.error < least)) return [];
      const block =
        next.printed === 0
          ? `${upper.tap} was found at ${said(upper.found)}`
          : `The block from ${next.tap} to ${upper.tap} gives ${said(left)}`;
      return [
        finding({
          check: 'battery-tired',
          severity: 'information',
          message: `${block} of ${said(printed)}: ${kindOf(supply)} is at its end at ${said(least)}.`,
          why: 'A block at its end has many ohms inside: the set howls, putters and distorts as if something else were wrong with it.',
          cure: supply.words.has('storage')
            ? `Charge ${supply.name}, and measure it again under load.`
            : `Measure it under load after half an hour; replace the ${next.printed === 0 ? 'block' : 'block named'}, not the whole of ${supply.name}.`,
          place,
          related: [{ place: supply.place, message: `${supply.name}, as it should be` }],
          parts: [supply.name],
        }),
      ];
    });
  });
}

function kindOf(supply: Part): string {
  return supply.words.has('storage') ? 'a storage battery' : 'a dry one';
}

function said(volts: number): string {
  return formatQuantity(volts, 'voltage', 'period', 3);
}

/** What one bench read of a battery, with its tubes in or out. */
interface TapsRead {
  readonly isOut: boolean;
  readonly volts: ReadonlyMap<
    string,
    { readonly value: number; readonly error: number; readonly place: Place }
  >;
  readonly amperes: ReadonlyMap<string, number>;
}

/** Batteries whose volts with the tubes in stand too far below those with the tubes out. */
function saggingIn(circuit: Circuit): Finding[] {
  const supplies = circuit.parts.filter(
    (part) => isSupply(part) && part.kind !== 'eliminator' && part.values.resistance,
  );
  return supplies.flatMap((supply) => {
    const read = circuit.benches.map((bench) => tapsRead(supply, bench));
    const outs = read.filter(({ isOut }) => isOut);
    const ins = read.filter(({ isOut }) => !isOut);
    // One finding for a battery, from the tap that tells most.
    const sags = ins.flatMap((loaded) =>
      outs.flatMap((out) => sagsOf(circuit, supply, out, loaded)),
    );
    const worst = sags.sort((a, b) => b.ohms - a.ohms)[0];
    const written = supply.values.resistance?.value ?? 0;
    if (!worst || !(worst.ohms > TIRED_TIMES * written)) return [];
    return [
      finding({
        check: 'battery-tired',
        severity: 'information',
        message: `${worst.tap} falls from ${said(worst.out)} with the tubes out to ${said(worst.loaded)} with them in: ${supply.name} has ${formatQuantity(worst.ohms, 'resistance', 'period', 2)} or more inside, where ${formatQuantity(written, 'resistance')} are written.`,
        why: 'What all stages share they are coupled by: the set howls or putters before it grows weak.',
        cure: `Replace the tired block of ${supply.name}; until then 2 to 4 mfd from ${worst.tap} to ${zeroTap(supply)?.end ?? 'its zero'} hold it.`,
        place: worst.place,
        related: [{ place: supply.place, message: `${supply.name}, as it should be` }],
        parts: [supply.name],
      }),
    ];
  });
}

function tapsRead(supply: Part, bench: Bench): TapsRead {
  const meter = meterOf(bench);
  const volts = new Map<string, { value: number; error: number; place: Place }>();
  const amperes = new Map<string, number>();
  for (const { kind, at, to, value, range, place } of bench.entries) {
    const tap = supply.ends.find(({ id }) => id === at)?.name;
    if (kind !== 'reading' || tap === undefined || !value || !Number.isFinite(value.value))
      continue;
    if (value.dimension === 'current') amperes.set(tap, Math.abs(value.value));
    if (value.dimension !== 'voltage' || (to !== undefined && to !== zeroId(supply))) continue;
    const scale = range?.value ?? scaleFor(meter, 'voltage', value.value);
    const error = errorOf(meter, 'voltage', value.value, scale) + ROUNDED * Math.abs(value.value);
    volts.set(tap, { value: Math.abs(value.value), error, place });
  }
  const isOut = bench.entries.some(
    ({ kind, words }) => kind === 'tubes-out' && words.includes('out'),
  );
  return { isOut, volts, amperes };
}

function zeroId(supply: Part): string | undefined {
  return supply.ends.find(({ name }) => name === zeroTap(supply)?.end)?.id;
}

interface Sag {
  readonly tap: string;
  readonly out: number;
  readonly loaded: number;
  /** The whole battery's, the least that the meter's accuracy allows. */
  readonly ohms: number;
  readonly place: Place;
}

/** By how much the taps sag, as ohms of the whole battery that lie evenly over its volts. */
function sagsOf(circuit: Circuit, supply: Part, out: TapsRead, loaded: TapsRead): readonly Sag[] {
  const whole = spread(supply);
  return supply.supplyTaps.flatMap(({ end, volts }): Sag[] => {
    const before = out.volts.get(end);
    const now = loaded.volts.get(end);
    if (!before || !now || !volts || !(whole > 0)) return [];
    let perOhm = 0;
    for (const other of supply.supplyTaps) {
      if (!other.volts || Math.sign(other.volts) !== Math.sign(volts)) continue;
      const drawn = loaded.amperes.get(other.end);
      if (drawn === undefined && isUsed(circuit, supply, other.end)) return [];
      // The blocks up to the nearer of the two taps carry what this lead draws.
      const shared = Math.min(Math.abs(other.volts), Math.abs(volts)) / whole;
      perOhm += shared * (drawn ?? 0);
    }
    const fall = before.value - now.value - before.error - now.error;
    if (!(fall > 0) || !(perOhm > 0)) return [];
    const { place } = now;
    return [{ tap: end, out: before.value, loaded: now.value, ohms: fall / perOhm, place }];
  });
}

/** Whether anything but the battery itself is joined to a tap. */
function isUsed(circuit: Circuit, supply: Part, tap: string): boolean {
  const junction = supply.ends.find(({ name }) => name === tap)?.junction;
  return junction !== undefined && (circuit.junctions[junction]?.terminals.length ?? 0) > 1;
}
