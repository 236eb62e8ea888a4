import {
  type Circuit,
  type Finding,
  isSupply,
  type Part,
  type Place,
  zeroTap,
} from '@setwright/circuit';
import type { Check } from '../check.ts';
import { revalued } from '../fixes/edits.ts';
import type { Study } from '../study.ts';
import { isPlateSupply, plateTapsOf } from '../supplies/plate-feed.ts';
import { regionsOf } from '../wiring/regions.ts';
import { amperes } from '../words/filament-words.ts';
import { alsoPart, finding, listed } from '../words/finding.ts';
import { tapTerminal, tapWords } from '../words/supply-words.ts';

/** A rating this much over the filament's is as good as equal: 63 mA and 60 mA. */
const CLOSE_ENOUGH = 1.1;

const set = (fuse: string): string => `receiver "Lantern Cove Guarded" {
  battery A dry {
    tap A- 0 V
    tap A+ 4.5 V
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
  bus NEG
  wire A- to C+ to GND
  fuse F1 ${fuse} from B- to A-
  switch S1 from A- to NEG closed
  rheostat RH1 30 ohms from NEG
  rheostat RH2 30 ohms from NEG
  coil L1 {
    form 3 in
    winding grid 50 turns of 24 DCC tap 10 to ANT from GND
  }
  condenser C1 variable 20 to 365 mmfd rotor to L1.grid.start stator to L1.grid.finish
  detector stage DET {
    condenser C2 .00025 mfd from L1.grid.finish to V1.grid
    leak R1 2 meg from V1.grid to A+
    tube V1 99 {
      filament from RH1 to A+
    }
    condenser C3 .001 mfd from V1.plate to NEG
  }
  output stage AF {
    transformer T1 ratio 1 to 3 {
      winding primary 800 ohms from V1.plate to B+45
      winding secondary 5000 ohms from C-4.5 to V2.grid
    }
    tube V2 99 {
      filament from RH2 to A+
    }
    horn H1 2000 ohms from V2.plate to B+90
  }
}`;

export const fuseGuardsNothing: Check = {
  id: 'fuse-guards-nothing',
  group: 'Filaments and controls',
  severity: 'warning',
  summary:
    'A fuse or lamp in a B lead lets through more than a filament bears, or leaves another B lead open.',
  why: 'When B finds its way to a filament the tubes go before the fuse does.',
  silent: [
    'There is no fuse in the set: few of the time had one.',
    'A fuse in the A lead guards the battery and its cable, and must carry all filaments.',
    'It is in B−, the lead common to all B, and its rating is below the smallest filament’s current.',
    'Every B lead that is used has a fuse of its own.',
    'Its rating is not stated.',
  ],
  source: 'common practice',
  fails: set('.5 A'),
  passes: set('.06 A'),
  needsWholeText: true,
  find(study) {
    const guards = guardsOf(study);
    if (guards.length === 0) return [];
    return [...tooStout(study, guards), ...oneLeadOnly(study, guards)];
  },
};

/** A fuse or lamp in a lead of a supply for plates. */
interface Guard {
  readonly part: Part;
  readonly supply: Part;
  /** Taps whose current it carries; the supply's zero when it is in B−. */
  readonly taps: readonly string[];
  readonly inNegative: boolean;
}

/** The fuses and lamps with nothing but taps of one B supply on one side. */
function guardsOf({ circuit, conduction }: Study): Guard[] {
  const breakers = circuit.parts.filter(({ kind }) => kind === 'fuse' || kind === 'lamp');
  if (breakers.length === 0) return [];
  const names = new Set(breakers.map(({ name }) => name));
  const regions = regionsOf(
    conduction,
    (branch) =>
      branch.direct.kind === 'conducts' &&
      !names.has(branch.part) &&
      circuit.partNamed.get(branch.part)?.kind !== 'tube',
  );
  const tapsIn = new Map<number, { supply: Part; tap: string }[]>();
  const busy = new Set<number>();
  for (const part of circuit.parts) {
    for (const end of part.ends) {
      const region = regions[end.junction] ?? -1;
      if (isSupply(part)) {
        const here = tapsIn.get(region) ?? [];
        here.push({ supply: part, tap: end.name });
        tapsIn.set(region, here);
      } else if (part.kind === 'tube') busy.add(region);
    }
  }
  return breakers.flatMap((part) => {
    for (const { junction } of part.ends) {
      const region = regions[junction] ?? -1;
      const taps = tapsIn.get(region) ?? [];
      const [first] = taps;
      if (!first || busy.has(region) || !isPlateSupply(first.supply)) continue;
      if (taps.some(({ supply }) => supply !== first.supply)) continue;
      const inNegative = taps.some(({ tap }) => tap === zeroTap(first.supply)?.end);
      // Both a B tap and B− on one side: it is in no lead of theirs.
      if (inNegative && taps.length > 1) continue;
      return [{ part, supply: first.supply, taps: taps.map(({ tap }) => tap), inNegative }];
    }
    return [];
  });
}

/** A supply's zero as a person calls it. */
function negativeOf(circuit: Circuit, supply: Part): string {
  const zero = zeroTap(supply);
  return zero ? tapWords(circuit, tapTerminal(supply, zero)) : 'B-';
}

function ratedCurrent({ values }: Part): number | undefined {
  if (values.ratedCurrent) return values.ratedCurrent.value;
  const volts = values.volts?.value;
  const watts = values.ratedPower?.value;
  return volts && watts ? watts / volts : undefined;
}

/** Fuses that pass more than the most delicate filament bears. */
function tooStout({ circuit, tubes }: Study, guards: readonly Guard[]): Finding[] {
  let least: { readonly tube: Part; readonly amperes: number } | undefined;
  for (const { part } of tubes) {
    const rated = part.tubeType?.filamentAmperes;
    if (rated && !part.tubeType?.heated && rated < (least?.amperes ?? Number.POSITIVE_INFINITY))
      least = { tube: part, amperes: rated };
  }
  if (!least) return [];
  const { tube, amperes: filament } = least;
  return guards.flatMap(({ part, supply }) => {
    const rated = ratedCurrent(part);
    if (rated === undefined || rated <= filament * CLOSE_ENOUGH) return [];
    return [
      finding({
        check: 'fuse-guards-nothing',
        severity: 'warning',
        message: `${part.name} lets ${amperes(rated)} through, more than the ${amperes(filament)} that light ${tube.name}.`,
        why: fuseGuardsNothing.why,
        cure: `Put one of less than ${amperes(filament)} in ${negativeOf(circuit, supply)}, the lead that all B current comes back by.`,
        place: part.place,
        related: [alsoPart(tube, `${tube.name} burns out before ${part.name} melts.`)],
        parts: [part.name],
        fixes: revalued(part, 'ratedCurrent', amperes(filament * 0.95)),
      }),
    ];
  });
}

/** Supplies with a guard in some of their B leads and none in B−. */
function oneLeadOnly({ circuit }: Study, guards: readonly Guard[]): Finding[] {
  const supplies = new Set(guards.map(({ supply }) => supply));
  return [...supplies].flatMap((supply) => {
    const own = guards.filter((guard) => guard.supply === supply);
    const [first] = own;
    if (!first || own.some(({ inNegative }) => inNegative)) return [];
    const guarded = new Set(own.flatMap(({ taps }) => taps));
    const open = plateTapsOf(supply).filter(
      ({ end }) => !guarded.has(end) && isUsed(circuit, supply, end),
    );
    if (open.length === 0) return [];
    const words = (ends: readonly string[]) =>
      listed(ends.map((end) => tapWords(circuit, `${supply.name}.${end}`)));
    const bare = open.map(({ end }) => end);
    return [
      finding({
        check: 'fuse-guards-nothing',
        severity: 'warning',
        message: `${listed(own.map(({ part }) => part.name))} guards ${words([...guarded])} only: ${words(bare)} ${
          bare.length > 1 ? 'have' : 'has'
        } nothing in the lead.`,
        why: fuseGuardsNothing.why,
        cure: `Move it to ${negativeOf(circuit, supply)}, the one lead that all B current comes back by.`,
        place: first.part.place,
        related: open.map(({ place }): { place: Place; message: string } => ({
          place,
          message: 'Nothing guards this tap.',
        })),
        parts: own.map(({ part }) => part.name),
      }),
    ];
  });
}

function isUsed(circuit: Circuit, supply: Part, tap: string): boolean {
  const junction = supply.ends.find(({ name }) => name === tap)?.junction;
  const terminals = junction === undefined ? [] : (circuit.junctions[junction]?.terminals ?? []);
  return terminals.some((id) => circuit.partOfEnd.get(id) !== supply);
}
