import {
  type Circuit,
  type Finding,
  isSupply,
  type SupplyPath,
  supplyReachingFilament,
} from '@setwright/circuit';
import { formatQuantity } from '@setwright/units';
import type { Check } from '../check.ts';
import type { Study } from '../study.ts';
import { joinsBetween } from '../wiring/joins-between.ts';
import { alsoPart, finding, listed } from '../words/finding.ts';
import { sentence, standingFirst } from '../words/position-words.ts';
import { tapWords } from '../words/supply-words.ts';
import { distinct, linesOfWay, partsOfWay, partWords } from '../words/way-words.ts';

/** So many tubes are named one by one. */
const MOST_NAMED = 4;

/** A B tap that comes to a filament. */
export const plateVoltageOnFilament: Check = {
  id: 'plate-voltage-on-filament',
  group: 'Batteries',
  severity: 'error',
  summary: 'A B tap reaches a filament at some position of a switch, jack or control.',
  why: 'Plate voltage on a filament burns out every tube on it at a stroke.',
  silent: [
    'B- is no B tap: it may be on A- or on A+.',
    'A series string of filaments fed from a B supply is left in peace while its current stays within 110 % of what the filaments are rated for.',
    'A bleeder, potentiometer, meter or neon lamp that passes less than that does no harm.',
    "A tube's own plate current never counts.",
    'A C battery joined to the filament on purpose feeds no plate.',
    'A way through a winding or resistor of which the ohms are not known is not called a fault.',
  ],
  source: 'common practice',
  needsWholeText: false,
  fails: setWith('wire B+45 to A+'),
  passes: setWith('wire B+45 to TEL'),
  find(study) {
    const reach = supplyReachingFilament(study.circuit);
    return reach.reaches ? [told(study, reach)] : [];
  },
};

function told(study: Study, path: SupplyPath): Finding {
  const { circuit } = study;
  const tap = tapWords(circuit, path.tap);
  const volts = path.volts === undefined ? '' : `, ${formatQuantity(path.volts, 'voltage')}`;
  const tubes = tubesThere(circuit, path);
  const { place, related } = linesOfWay(circuit, path.tap, path.terminal, path.steps);
  const tube = circuit.partNamed.get(path.tube);
  const supply = circuit.partOfEnd.get(path.tap);
  const at = place ?? tube?.place ?? circuit.namePlace;
  return finding({
    check: 'plate-voltage-on-filament',
    severity: 'error',
    message: sentence(
      `${standing(study, path)}${tap}${volts}, reaches ${filamentsOf(path, tubes)} ${wayOf(circuit, path)}.`,
    ),
    why:
      tubes.length > 1
        ? 'Plate voltage burns out all of these filaments at a stroke.'
        : 'Plate voltage burns the filament out at a stroke.',
    cure: cureOf(circuit, path, tap),
    place: at,
    related: distinct(
      [
        ...related,
        ...(supply ? [alsoPart(supply, `${tap} is a tap of ${supply.name}.`)] : []),
        ...(tube ? [alsoPart(tube, `${path.terminal} is reached.`)] : []),
      ],
      at,
    ),
    parts: [...new Set([...suppliesOnWay(circuit, path), ...partsOfWay(path.steps), ...tubes])],
  });
}

function standing(study: Study, path: SupplyPath): string {
  const positions = standingFirst(study, path.settings);
  const turned = partsOfWay(path.steps).flatMap((name) => {
    const part = study.circuit.partNamed.get(name);
    const isTurned = part?.kind === 'rheostat' || part?.kind === 'potentiometer';
    if (!isTurned || !path.settings.travels.has(name)) return [];
    return part.kind === 'rheostat' ? [`${name} turned down`] : [`${name} at its end`];
  });
  if (turned.length === 0) return positions;
  return positions === ''
    ? `With ${listed(turned)}, `
    : positions.replace(/, $/, ` and ${listed(turned)}, `);
}

/** The tubes whose filaments hang on the junction that is reached, the one found first. */
function tubesThere(circuit: Circuit, path: SupplyPath): readonly string[] {
  const junction = circuit.endNamed.get(path.terminal)?.junction;
  const there = (circuit.junctions[junction ?? -1]?.terminals ?? []).flatMap((id) => {
    const part = circuit.partOfEnd.get(id);
    const isFilament = id.endsWith('.filament-') || id.endsWith('.filament+');
    return part?.kind === 'tube' && isFilament ? [part.name] : [];
  });
  return [...new Set([path.tube, ...there])];
}

function filamentsOf(path: SupplyPath, tubes: readonly string[]): string {
  if (tubes.length <= 1) return path.terminal;
  if (tubes.length <= MOST_NAMED) return `the filaments of ${listed(tubes)}`;
  const named = tubes.slice(0, MOST_NAMED - 1);
  return `the filaments of ${listed([...named, `${tubes.length - named.length} more tubes`])}`;
}

function wayOf(circuit: Circuit, { steps, ohms }: SupplyPath): string {
  if (steps.length === 0) return 'by wire alone';
  const names = partsOfWay(steps).map((name) => partWords(circuit, name));
  const amount = ohms > 0 ? `, ${formatQuantity(ohms, 'resistance')} in all` : '';
  return `through ${listed([...new Set(names)])}${amount}`;
}

/** The supply of the tap, and those with a tap where the way leads: they are joined by it. */
function suppliesOnWay(circuit: Circuit, { tap, terminal, steps }: SupplyPath): readonly string[] {
  const junctions = [tap, terminal, ...steps.map(({ to }) => to)].map(
    (id) => circuit.endNamed.get(id)?.junction,
  );
  const supplies = junctions.flatMap((junction) =>
    (circuit.junctions[junction ?? -1]?.terminals ?? []).flatMap((id) => {
      const part = circuit.partOfEnd.get(id);
      return part && isSupply(part) ? [part.name] : [];
    }),
  );
  return [...new Set([circuit.partOfEnd.get(tap)?.name ?? '', ...supplies])].filter(Boolean);
}

function cureOf(circuit: Circuit, { tap: id, terminal, steps }: SupplyPath, tap: string): string {
  const first = steps.find(({ direct }) => direct.kind !== 'source');
  if (first)
    return `Take ${partWords(circuit, first.part)} off ${tap}, or off the way to ${terminal}: no conductor may lead from a B tap to a filament.`;
  const wire = joinsBetween(circuit, id, terminal).find(({ join }) => join.said === 'wire');
  const other = wire ? [wire.join.from, wire.join.to].find((end) => end !== id) : undefined;
  return other === undefined
    ? `Take ${tap} off ${terminal}, and bring the filament to its A battery.`
    : `Take ${tap} off ${tapWords(circuit, other)}, and bring it to the plate circuit that it belongs to.`;
}

function setWith(line: string): string {
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
  post TEL phones
  wire B- to A-
  ${line}
  resistor F1 4 ohms from A-
  detector stage DET {
    coil L1 {
      winding grid 240 uH 4 ohms from A-
    }
    condenser C1 variable 14 to 365 mmfd across L1.grid
    condenser C2 .00025 mfd from L1.grid.finish to V1.grid
    leak R1 2 meg from V1.grid to A+
    tube V1 01-A {
      filament from F1 to A+
      plate to PH1
    }
    phones PH1 2000 ohms to TEL
    condenser C3 .001 mfd from V1.plate to A-
  }
}
`;
}
