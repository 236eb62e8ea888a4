import type { Circuit, Part } from '@setwright/circuit';
import { condenserValues } from './condenser-values.ts';
import type { RadioGroups } from './radio-groups.ts';
import { strayCapacities } from './stray-capacities.ts';
import { STANDARD_AERIAL, USUAL_TUBE_INPUT } from './usual-values.ts';
import { factOf, missingOf, type Reckoned, type ValueBecause } from './value-because.ts';

/** Something that holds a charge between two points. */
export interface Capacity {
  readonly part: Part;
  readonly what: 'condenser' | 'tube' | 'aerial' | 'wiring';
  readonly from: number;
  readonly to: number;
  /** Farads as set. */
  readonly now: number;
  /** Farads with plates out and in, of a condenser that is turned to tune. */
  readonly range: readonly [least: number, most: number] | undefined;
  readonly because: ValueBecause | undefined;
  /** Where the two ends of its range come from. */
  readonly rangeBecause?: readonly [least: ValueBecause, most: ValueBecause] | undefined;
  /** What is missing to know it; it is counted as nothing then. */
  readonly missing: readonly string[];
}

/**
 * Every capacity of the set between different points at radio frequency: condensers, the
 * capacities between tubes' electrodes, aerials against ground, and wiring.
 */
export function capacitiesOf(circuit: Circuit, points: RadioGroups): readonly Capacity[] {
  const all: Capacity[] = [];
  for (const part of circuit.parts) {
    if (part.kind === 'condenser') addCondenser(all, circuit, points, part);
    else if (part.kind === 'tube') addTube(all, points, part);
    else if (part.kind === 'post' && part.words.has('aerial')) addAerial(all, points, part);
  }
  for (const { part, point, farads, assumed } of strayCapacities(circuit, points)) {
    all.push({
      part,
      what: 'wiring',
      from: point,
      to: points.ground ?? point,
      now: farads,
      range: undefined,
      because: { formula: 'wiring', facts: [], assumed: [assumed], source: 'common practice' },
      missing: [],
    });
  }
  return all.filter(({ from, to }) => from !== to);
}

function addCondenser(all: Capacity[], circuit: Circuit, points: RadioGroups, part: Part) {
  const [first, second] = part.ends;
  const values = condenserValues(circuit, part);
  if (!first || !second || !values) return;
  const { least, most, now, kind } = values;
  const isTuner = kind === 'variable' && least.value !== undefined && most.value !== undefined;
  const middle = isTuner ? ((least.value ?? 0) + (most.value ?? 0)) / 2 : 0;
  const known: Reckoned = now.value !== undefined ? now : most;
  all.push({
    part,
    what: 'condenser',
    from: points.of(first.junction),
    to: points.of(second.junction),
    now: now.value ?? middle,
    range: isTuner ? [least.value ?? 0, most.value ?? 0] : undefined,
    because: known.value === undefined ? undefined : known.because,
    rangeBecause:
      least.value === undefined || most.value === undefined
        ? undefined
        : [least.because, most.because],
    missing: missingOf(most),
  });
}

function addTube(all: Capacity[], points: RadioGroups, part: Part) {
  const idOf = (name: string) => part.ends.find((end) => end.name === name);
  const emitter = idOf('cathode') ?? idOf('filament-');
  const endOf = (electrode: string) =>
    electrode === 'cathode' || electrode === 'filament' ? emitter : idOf(electrode);
  const capacities = Object.entries(part.tubeType?.capacitances ?? {});
  const assumed = capacities.length === 0;
  const pairs: readonly (readonly [string, number])[] = assumed
    ? [['grid filament', USUAL_TUBE_INPUT]]
    : capacities;
  for (const [pair, farads] of pairs) {
    const [one, other] = pair.split(' ').map((electrode) => endOf(electrode));
    if (!one || !other || one === other) continue;
    all.push({
      part,
      what: 'tube',
      from: points.of(one.junction),
      to: points.of(other.junction),
      now: farads,
      range: undefined,
      because: {
        formula: 'capacities between the electrodes, the tube cold',
        facts: part.tubeType
          ? [{ place: part.tubeType.place, text: part.tubeType.name, meaning: 'tube type' }]
          : [],
        assumed: assumed ? [`10 mmfd at the grid of ${part.name}, whose type gives none`] : [],
        source: part.tubeType?.source ?? 'common practice',
      },
      missing: [],
    });
  }
}

function addAerial(all: Capacity[], points: RadioGroups, part: Part) {
  const end = part.ends[0];
  if (!end || points.ground === undefined) return;
  const said = part.values.capacitance;
  all.push({
    part,
    what: 'aerial',
    from: points.of(end.junction),
    to: points.ground,
    now: said?.value ?? STANDARD_AERIAL,
    range: undefined,
    because: {
      formula: said ? 'as stated' : 'a standard dummy aerial',
      facts: said ? [factOf(said, `capacity of ${part.name}`)] : [],
      assumed: said ? [] : ['an aerial of 200 mmfd'],
      source: said ? 'the text' : 'standard antenna for receiver tests (from memory)',
    },
    missing: [],
  });
}
