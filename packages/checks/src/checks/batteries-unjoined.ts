import {
  type Circuit,
  type Finding,
  type Fix,
  isFilamentSupply,
  type Part,
  type Settings,
  zeroTap,
} from '@setwright/circuit';
import type { Check } from '../check.ts';
import { alsoPart, finding, listed } from '../finding.ts';
import { outsideBridges } from '../outside.ts';
import { judgedOverPositions, standingWords } from '../positions.ts';
import type { Study } from '../study.ts';
import { tapTerminal, tapWords } from '../supply-words.ts';
import { type UnjoinedSupplies, unjoinedSupplies } from '../unjoined-supplies.ts';

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
    'Any way of less than 5 kilohms counts as joined: a filament post, a bias resistor, another battery.',
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
  const names = tubes.map(({ part }) => part.name);
  const main = supplies.find((supply) => !isFilamentSupply(supply)) ?? supplies[0];
  const [from, to] = [main, lighting(others)].map((supply) => zeroWords(circuit, supply));
  const fix = fixOf(circuit, main, lighting(others));
  return finding({
    check: 'batteries-unjoined',
    severity: curedBy ? 'information' : 'error',
    message: messageOf(item),
    why:
      feeds === 'grids'
        ? `A grid with no way back to its own filament has no bias: it floats, and the tube chokes.`
        : `Plate current that has no way back to ${from ?? 'its battery'} does not flow at all.`,
    cure: curedBy
      ? `Nothing, if it is meant: it is joined with ${standingWords(circuit, study.on.settings, curedBy)}.`
      : to === undefined
        ? `Join ${from} to the filaments.`
        : `Join ${from} to ${to}.`,
    place: main?.place ?? circuit.namePlace,
    related: tubes.map(({ part }) => alsoPart(part, `${part.name} waits for it.`)),
    parts: [...supplies.map(({ name }) => name), ...names],
    fixes: fix ? [fix] : [],
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
    : `Nothing joins ${batteries} with ${emitters} of ${listed(some)}, whose ${one ? 'plate' : 'plates'} ${supplies.length > 1 ? 'they feed' : 'it feeds'}.`;
}

/** The supply to join to: one for filaments where there is one. */
function lighting(supplies: readonly Part[]): Part | undefined {
  return supplies.find(isFilamentSupply) ?? supplies[0];
}

function zeroWords(circuit: Circuit, supply: Part | undefined): string | undefined {
  const zero = supply && zeroTap(supply);
  return zero ? tapWords(circuit, tapTerminal(supply, zero)) : supply?.name;
}

/** Adds the one zero to a wire that already leads from the other. */
function fixOf(circuit: Circuit, a: Part | undefined, b: Part | undefined): Fix | undefined {
  const ends = [a, b].map((supply) => {
    const zero = supply && zeroTap(supply);
    return zero && tapTerminal(supply, zero);
  });
  for (const [own, other] of [ends, [...ends].reverse()]) {
    if (own === undefined || other === undefined) continue;
    const words = tapWords(circuit, other);
    const wire = circuit.joins.find(
      (join) =>
        join.said === 'wire' &&
        (join.from === own || join.to === own) &&
        [join.from, join.to].every((id) => circuit.partOfEnd.get(id)?.kind !== 'lead'),
    );
    if (!wire || words.includes(' ')) continue;
    const { file, end } = wire.place;
    return {
      title: `Join ${tapWords(circuit, own)} to ${words}`,
      edits: [{ place: { file, start: end, end }, text: ` to ${words}` }],
    };
  }
  return undefined;
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
