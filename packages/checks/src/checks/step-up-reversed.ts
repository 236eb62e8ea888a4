import type { Circuit, Finding, Fix, Part } from '@setwright/circuit';
import { formatQuantity } from '@setwright/units';
import { type IronTransformer, ironTransformers } from '../audio/iron-transformers.ts';
import { type SignalGroups, signalGroups } from '../audio/signal-groups.ts';
import type { Check } from '../check.ts';
import { exchanged, type JoinsByTerminal, joinsByTerminal } from '../fixes/exchange.ts';
import { alsoPart, finding, listed } from '../words/finding.ts';

/** Ohms alone tell the winding of more turns only beyond this ratio. Common practice. */
const CERTAIN_OHMS_RATIO = 2;

/** An interstage transformer with its winding of many turns in the plate circuit. */
export const stepUpReversed: Check = {
  id: 'step-up-reversed',
  group: 'Audio and ratings',
  severity: 'warning',
  summary: 'An interstage transformer with the winding of more turns in the plate circuit.',
  why: 'It steps the voltage down where it should step it up: the sound falls by the square of the ratio.',
  silent: [
    'Output transformers, single or push-pull: no grid is on their other winding.',
    'A winding that drives two grids from its centre, such as an input that matches a power stage.',
    'A transformer that no plate drives: a line, a microphone or a crystal.',
    'Where only the ohms are known and they differ by less than two to one.',
    'Where neither ratio, turns nor ohms are known.',
  ],
  source: 'common practice',
  needsWholeText: false,
  fails: setWith('primary', 'secondary'),
  passes: setWith('secondary', 'primary'),
  find({ circuit, conduction, tubes }) {
    const transformers = ironTransformers(circuit);
    if (transformers.length === 0) return [];
    const groups = signalGroups(conduction, tubes);
    const joins = joinsByTerminal(circuit);
    return transformers.flatMap((transformer) => {
      const sides = sidesOf(groups, transformer);
      return sides ? judged(circuit, joins, transformer.part, sides) : [];
    });
  },
};

interface Sides {
  readonly plate: Part;
  readonly grid: Part;
  readonly plateTubes: readonly string[];
  readonly gridTubes: readonly string[];
}

/** The winding on a plate and the one on a grid, where there is just one of each. */
function sidesOf(groups: SignalGroups, { windings }: IronTransformer): Sides | undefined {
  const on = (at: SignalGroups['plates'], winding: Part): readonly string[] => [
    ...new Set(
      winding.ends.flatMap(({ junction }) =>
        (at.get(groups.of[junction] ?? -1) ?? []).map(({ part }) => part.name),
      ),
    ),
  ];
  const plates = windings.filter((winding) => on(groups.plates, winding).length > 0);
  const grids = windings.filter((winding) => on(groups.grids, winding).length > 0);
  const [plate] = plates;
  const [grid] = grids;
  if (plates.length !== 1 || grids.length !== 1 || !plate || !grid || plate === grid)
    return undefined;
  const gridTubes = on(groups.grids, grid);
  const drivesTwo = gridTubes.length > 1 && grid.taps.length > 0;
  return drivesTwo ? undefined : { plate, grid, plateTubes: on(groups.plates, plate), gridTubes };
}

/** Turns of the grid's winding over those of the plate's, and what it was told by. */
function stepUp(transformer: Part, { plate, grid }: Sides) {
  const { ratio } = transformer.values;
  const named = (winding: Part, own: string): boolean =>
    winding.name === `${transformer.name}.${own}`;
  if (ratio && ratio.value > 0) {
    if (named(plate, 'primary') && named(grid, 'secondary'))
      return { by: 'ratio', ratio: ratio.value } as const;
    if (named(plate, 'secondary') && named(grid, 'primary'))
      return { by: 'ratio', ratio: 1 / ratio.value } as const;
  }
  const turns = [plate, grid].map((winding) => winding.values.turns?.value ?? 0);
  if (turns[0] && turns[1]) return { by: 'turns', ratio: turns[1] / turns[0] } as const;
  const ohms = ohmsRatio(plate, grid);
  return ohms === undefined ? undefined : ({ by: 'ohms', ratio: ohms } as const);
}

function ohmsRatio(plate: Part, grid: Part): number | undefined {
  const [first, second] = [plate, grid].map(({ values }) => values.resistance?.value ?? 0);
  return first && second ? second / first : undefined;
}

function judged(
  circuit: Circuit,
  joins: JoinsByTerminal,
  transformer: Part,
  sides: Sides,
): Finding[] {
  const told = stepUp(transformer, sides);
  if (!told || told.ratio >= (told.by === 'ohms' ? 1 / CERTAIN_OHMS_RATIO : 1)) return [];
  const { plate, grid } = sides;
  const name = transformer.name;
  const ohms = ohmsRatio(plate, grid);
  // The ohms say that the winding on the grid has the more turns: then the ratio is misread.
  const isMisread =
    told.by === 'ratio' && plate.name === `${name}.primary` && (ohms === undefined || ohms > 1);
  const more =
    told.by === 'ohms'
      ? `${formatQuantity(plate.values.resistance?.value ?? 0, 'resistance')} against ${formatQuantity(grid.values.resistance?.value ?? 0, 'resistance')}`
      : `${formatQuantity(1 / told.ratio, 'ratio')} to 1`;
  const otherWay = transformer.values.ratio?.text.replace(
    /ratio\s+(\S+)\s+to\s+(\S+)/,
    'ratio $2 to $1',
  );
  const fixes: Fix[] = [];
  if (isMisread && transformer.values.ratio && otherWay)
    fixes.push({
      title: `Change to ${otherWay}`,
      edits: [{ place: transformer.values.ratio.place, text: otherWay }],
    });
  const edits = exchangedWindings(circuit, joins, plate, grid);
  if (edits && !(isMisread && ohms !== undefined))
    fixes.push({ title: `Exchange ${plate.name} and ${grid.name}`, edits });
  return [
    finding({
      check: 'step-up-reversed',
      severity: 'warning',
      message: `${name} steps down from ${listed(sides.plateTubes)} to ${listed(sides.gridTubes)}: ${plate.name}, with the more ${told.by === 'ohms' ? 'ohms' : 'turns'} (${more}), is in the plate circuit.`,
      why: 'It should step the voltage up: the sound falls by the square of the ratio.',
      cure: isMisread
        ? `If the transformer is wired right, write ${otherWay ?? 'the ratio the other way round'}; else exchange ${plate.name} and ${grid.name}.`
        : `Exchange ${plate.name} and ${grid.name}: the winding of fewer turns belongs on ${listed(sides.plateTubes.map((tube) => `${tube}.plate`))}.`,
      place: transformer.place,
      related: [alsoPart(plate, 'this is on the plate'), alsoPart(grid, 'this is on the grid')],
      parts: [name, plate.name, grid.name],
      fixes,
    }),
  ];
}

function exchangedWindings(
  circuit: Circuit,
  joins: JoinsByTerminal,
  a: Part,
  b: Part,
): Fix['edits'] | undefined {
  const edits: Fix['edits'][number][] = [];
  for (const name of ['start', 'finish']) {
    const [first, second] = [a, b].map((part) => part.ends.find((end) => end.name === name));
    const some = first && second && exchanged(circuit, first, second, joins);
    if (!some) return undefined;
    edits.push(...some);
  }
  return edits;
}

function setWith(onGrid: string, onPlate: string): string {
  return `receiver "Harbour office" {
  battery A storage {
    tap A- 0 V
    tap A+ 6 V
  }
  battery B dry {
    tap B-
    tap B+90
  }
  battery C dry {
    tap C+
    tap C-4.5
  }
  post ANT aerial
  post GND ground
  wire B- to A- to C+ to GND
  resistor F1 4 ohms from A+ to V1.filament+
  resistor F2 4 ohms from A+ to V2.filament+
  detector stage DET {
    coil L1 {
      form 3 in
      winding aerial 12 turns of 24 DCC from GND to ANT
      winding secondary 44 turns of 24 DCC beside aerial spaced 1/4 in from GND
    }
    condenser C1 variable 20 to 500 mmfd rotor to GND stator to L1.secondary.finish
    crystal CR1 from L1.secondary.finish to T1.primary.start
    condenser C2 .001 mfd across T1.primary
  }
  audio stage AF1 {
    transformer T1 ratio 1 to 3 {
      winding primary 800 ohms to GND
      winding secondary 5000 ohms from C-4.5 to V1.grid
    }
    tube V1 01-A {
      filament from A-
    }
  }
  output stage AF2 {
    transformer T2 ratio 1 to 3.5 {
      winding ${onPlate} from V1.plate to B+90
      winding ${onGrid} from C-4.5 to V2.grid
    }
    tube V2 01-A {
      filament from A-
    }
    phones PH1 2000 ohms from V2.plate to B+90
  }
}
`;
}
