import {
  type Circuit,
  type Finding,
  type Fix,
  isFilamentSupply,
  type Part,
  type Settings,
  type SupplyTap,
  zeroTap,
} from '@setwright/circuit';
import type { Check } from '../check.ts';
import type { Study } from '../study.ts';
import { type UnjoinedSupplies, unjoinedSupplies } from '../supplies/unjoined-supplies.ts';
import { outsideBridges } from '../wiring/outside.ts';
import { judgedOverPositions, standingWords } from '../wiring/positions.ts';
import { alsoPart, finding, listed } from '../words/finding.ts';
import { tapTerminal, tapWords } from '../words/supply-words.ts';

/** So many tubes are named one by one. */
const MOST_NAMED = 5;

/** A B or C battery with no common return to the filaments. */
export const batteriesUnjoined: Check = {
  id: 'batteries-unjoined',
  group: 'Batteries',
  severity: 'error',
  summary:
    'A battery that feeds plates or grids has no common return with the filaments of those tubes.',
  why: 'Current flows in a ring. A B battery that is joined to the plates alone drives none, and a C battery that is joined to the grids alone leaves them floating. The strap often lived on the lost battery cable.',
  silent: [
    'Any way of 5 kilohms and less counts as joined: a filament post, a bias resistor, a safety resistor, another battery.',
    'A separate A battery for an add-on amplifier is joined where B- joins them.',
    'A battery that feeds no plate and no grid is no business of this check, such as the cell of a crystal.',
    'A resistance of which the ohms are not known counts as joined.',
  ],
  source: 'common practice',
  needsWholeText: true,
  fails: setWith('wire B- to GND'),
  passes: setWith('wire B- to GND to A-'),
  find(study) {
    const bridges = outsideBridges(study.circuit);
    const judged = judgedOverPositions(
      study,
      (conduction) =>
        new Set(
          unjoinedSupplies(conduction, study.tubes, bridges).flatMap(({ supplies }) => supplies),
        ),
    );
    if (judged.size === 0) return [];
    return unjoinedSupplies(study.conduction, study.tubes, bridges).map((item) => {
      const cures = item.supplies.map((supply) => judged.get(supply)?.curedBy);
      return told(study, item, cures.every(Boolean) ? cures[0] : undefined);
    });
  },
};

function told(study: Study, item: UnjoinedSupplies, curedBy: Settings | undefined): Finding {
  const { circuit } = study;
  const { supplies, tubes, others, feeds } = item;
  const home = lighting(others);
  const zeros = listed(supplies.map((supply) => zeroWords(circuit, supply)));
  const fixes = supplies.flatMap((supply) => fixOf(circuit, supply, home));
  const main = supplies.find((supply) => !isFilamentSupply(supply)) ?? supplies[0];
  return finding({
    check: 'batteries-unjoined',
    severity: curedBy ? 'information' : 'error',
    message: messageOf(item),
    why:
      feeds === 'grids'
        ? 'A grid with no way back to its own filament has no bias: it floats, and the tube chokes.'
        : 'Plate current that has no way back to its battery does not flow at all.',
    cure: curedBy
      ? `Nothing, if it is meant: it is joined with ${standingWords(circuit, study.on.settings, curedBy)}.`
      : `Join ${zeros} to ${home ? zeroWords(circuit, home) : 'the filaments'}.`,
    place: main?.place ?? circuit.namePlace,
    related: [
      ...supplies.flatMap((part) =>
        part === main ? [] : [alsoPart(part, `${part.name} stands apart too.`)],
      ),
      ...tubes.map(({ part }) => alsoPart(part, `${part.name} waits for it.`)),
    ],
    parts: [...supplies.map(({ name }) => name), ...tubes.map(({ part }) => part.name)],
    // With more than one to be joined, one edit would leave the finding where it is.
    fixes: supplies.length === 1 ? fixes : [],
  });
}

function messageOf({ supplies, tubes, others, feeds }: UnjoinedSupplies): string {
  const names = tubes.map(({ part }) => part.name);
  const some =
    names.length <= MOST_NAMED
      ? names
      : [...names.slice(0, MOST_NAMED - 1), `${names.length - MOST_NAMED + 1} more tubes`];
  const batteries = listed(supplies.map(({ name }) => name));
  const one = names.length === 1;
  if (feeds === 'filaments')
    return `Nothing joins ${batteries} with ${listed(others.map(({ name }) => name))}: the plate current of ${listed(some)} has no way home from ${one ? 'its filament' : 'their filaments'}.`;
  const emitters = tubes.every(({ cathode }) => cathode)
    ? one
      ? 'the cathode'
      : 'the cathodes'
    : one
      ? 'the filament'
      : 'the filaments';
  return feeds === 'grids'
    ? `Nothing joins ${batteries} with ${emitters} of ${listed(some)}, whose ${one ? 'grid hangs' : 'grids hang'} on it.`
    : `Nothing joins ${batteries} with ${emitters} of ${listed(some)}, ${supplies.length > 1 ? 'which they feed' : `whose ${one ? 'plate' : 'plates'} it feeds`}.`;
}

/** The supply to join to: one for filaments where there is one. */
function lighting(supplies: readonly Part[]): Part | undefined {
  return supplies.find(isFilamentSupply) ?? supplies[0];
}

/** A supply's zero: `B-`, `C+`. In words where the text gives it no tap. */
function zeroWords(circuit: Circuit, supply: Part): string {
  const zero = zeroTap(supply);
  return zero && isZero(zero)
    ? tapWords(circuit, tapTerminal(supply, zero))
    : `the zero of ${supply.name}, which has no tap yet,`;
}

function isZero({ volts }: SupplyTap): boolean {
  return volts === 0 || volts === undefined;
}

/** Adds the one zero to a wire that already leads from the other. */
function fixOf(circuit: Circuit, a: Part, b: Part | undefined): readonly Fix[] {
  const [own, home] = [a, b].map((supply) => {
    const zero = supply && zeroTap(supply);
    return zero && isZero(zero) ? tapTerminal(supply, zero) : undefined;
  });
  if (own === undefined || home === undefined) return [];
  for (const [from, to] of [
    [own, home],
    [home, own],
  ] as const) {
    const words = tapWords(circuit, to);
    const wire = circuit.joins.find(
      (join) =>
        join.said === 'wire' &&
        (join.from === from || join.to === from) &&
        [join.from, join.to].every((id) => circuit.partOfEnd.get(id)?.kind !== 'lead'),
    );
    // Two supplies may have a tap of one name, which a wire then cannot name.
    if (!wire || words.includes(' ')) continue;
    const { file, end } = wire.place;
    const place = { file, start: end, end };
    return [
      {
        title: `Join ${tapWords(circuit, from)} to ${words}`,
        edits: [{ place, text: ` to ${words}` }],
      },
    ];
  }
  return [];
}

function setWith(wire: string): string {
  return `
receiver "One tube with phones" {
  battery A storage {
    tap A- 0 V
    tap A+ 6 V
  }
  battery B dry {
    tap B-
    tap B+45
  }
  post GND ground
  post ANT aerial
  ${wire}
  resistor F1 4 ohms from A-
  detector stage DET {
    coil L1 {
      winding aerial 12 uH 1 ohms from GND to ANT
      winding grid 240 uH 4 ohms from A-
      coupling aerial with grid 30 %
    }
    condenser C1 variable 14 to 365 mmfd across L1.grid
    condenser C2 .00025 mfd from L1.grid.finish to V1.grid
    leak R1 2 meg from V1.grid to A+
    tube V1 01-A {
      filament from F1 to A+
      plate to PH1
    }
    phones PH1 2000 ohms to B+45
    condenser C3 .001 mfd from V1.plate to A-
  }
}
`;
}
