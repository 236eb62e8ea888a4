import type { Circuit, Part } from '@setwright/circuit';
import {
  coilResistance,
  coilSelfCapacitance,
  fieldProximityRatio,
  qualityFactor,
  type SingleLayerCoil,
  singleLayerInductance,
  type Turn,
  thickCoilInductance,
  windingWireLength,
  wireResistancePerMetre,
  woundResistance,
} from '@setwright/physics';
import { type CoilLayout, coilLayout, type WindingShape } from './coil-layout.ts';
import { ironInductance } from './iron-core.ts';
import {
  missingOf,
  type Reckoned,
  reckoned,
  stated,
  unknown,
  type ValueBecause,
} from './value-because.ts';

/** What one winding, choke, loop or the like is, in henries, ohms, farads and metres. */
export interface WindingValues {
  readonly part: Part;
  readonly inductance: Reckoned;
  /** Of its copper, at direct current. */
  readonly resistance: Reckoned;
  /** Of the winding by itself in air with one end grounded. */
  readonly selfCapacitance: Reckoned;
  /** To the middle of the wire. */
  readonly meanDiameter: Reckoned;
  /** Along the axis, turns times pitch. */
  readonly length: Reckoned;
  /** Henries by its make alone, whatever its line states; undefined where that is not known. */
  readonly wound: number | undefined;
  /** How it is made, where the text says enough. */
  readonly shape: WindingShape | undefined;
}

/** How sure the losses of a winding in several layers are: its turns lie anyhow. */
const LAYERED_LOSS_ERROR = 0.35;

/** What a winding loses at one frequency. */
export interface WindingLoss {
  /** Ohms in series. */
  readonly resistance: Reckoned;
  readonly q: Reckoned;
}

const SINGLE_LAYER =
  'NBS Circular 74 (1918), sections 66 and 67, after Nagaoka (1909) and Rosa (1906)';

/** What every loss of a coil leaves out, told beside all that follows from it. */
const UPPER_BOUND = 'nothing lost in form, covering and shields, so that Q is an upper bound';

/**
 * Share by which the inductance of a coil as told may be out: the covering table is good to about
 * 2 % of the wire's diameter, which is half of that in the inductance, and forms are not true.
 */
const WOUND_ERROR = 0.02;

/**
 * The values of a winding of a coil or transformer: by what its line states, else by how it is
 * made. Unknown ones say what is missing. Never throws.
 */
export function windingValues(
  circuit: Circuit,
  part: Part,
  layout: CoilLayout = coilLayout(circuit, part.owner ?? ''),
): WindingValues {
  const owner = circuit.partNamed.get(part.owner ?? '');
  const shape = layout.shapes.get(part.name);
  const lacks = layout.missing.get(part.name) ?? [`how ${part.name} is made`];
  const isIron = owner?.kind === 'transformer' && !owner.words.has('air');
  const { tolerance } = part.values;
  const isReal = (part.values.inductance?.value ?? 0) > 0;
  const said = isReal ? part.values.inductance : undefined;
  const ohms = part.values.resistance;
  const byMake = shape && !isIron ? woundInductance(shape) : unknown(...lacks);
  return {
    part,
    inductance: said
      ? stated(said, `inductance of ${part.name}`)
      : isIron
        ? ironInductance(circuit, owner, part)
        : byMake,
    resistance: ohms
      ? stated(ohms, `resistance of ${part.name}`, tolerance)
      : shape && !isIron
        ? copperResistance(shape)
        : unknown(`the ohms of ${part.name}`),
    selfCapacitance: shape && !isIron ? ownCapacity(shape) : unknown(`how ${part.name} is wound`),
    meanDiameter: shape
      ? sized(2 * shape.winding.radius, 'form and half a wire on either side', shape)
      : unknown(...lacks),
    length: shape ? sized(shape.winding.length, 'turns times pitch', shape) : unknown(...lacks),
    wound: byMake.value,
    shape,
  };
}

/** The winding as a coil of one layer; undefined for one in several layers. */
export function singleLayer(shape: WindingShape): SingleLayerCoil | undefined {
  const { turns, radius } = shape.winding;
  const { pitch, bare, layers } = shape.wire;
  return layers === 1 ? { turns, radius, pitch, wireDiameter: bare } : undefined;
}

/**
 * Series resistance and Q of a winding at a frequency in hertz, above 0.
 *
 * By its make the wire alone: form, covering, moisture and shields come on top, so that the Q is
 * the most it can have. A winding by stated ohms is taken to have those at radio frequency too.
 * Stated ohms of a winding whose make is known raise both in the same measure.
 */
export function windingLoss(values: WindingValues, frequency: number): WindingLoss {
  const resistance = radioResistance(values, frequency);
  const { inductance } = values;
  if (resistance.value === undefined || inductance.value === undefined)
    return { resistance, q: unknown(...missingOf(inductance), ...missingOf(resistance)) };
  const because: ValueBecause = {
    formula: '2\u03c0 times frequency, times inductance over resistance',
    facts: [...inductance.because.facts, ...resistance.because.facts],
    assumed: [...inductance.because.assumed, ...resistance.because.assumed],
    source: [...new Set([inductance.because.source, resistance.because.source])]
      .filter((each) => each !== 'the text')
      .concat('definition of Q')
      .join('; '),
  };
  const q = qualityFactor(inductance.value, resistance.value, frequency);
  return { resistance, q: reckoned(q, because, [`the resistance of ${values.part.name}`]) };
}

function radioResistance(values: WindingValues, frequency: number): Reckoned {
  const { part, shape, resistance } = values;
  if (!shape?.wire.gaugeSaid) {
    if (resistance.value === undefined) return resistance;
    const assumed = [
      `the ohms of ${part.name} at direct current hold at radio frequency`,
      UPPER_BOUND,
    ];
    return {
      value: resistance.value,
      because: { ...resistance.because, assumed: [...resistance.because.assumed, ...assumed] },
    };
  }
  const isLayered = shape.wire.layers > 1;
  const neighbours = isLayered ? 'of all other turns' : 'of the neighbouring turns';
  return reckoned(
    radioOhms(values)?.(frequency),
    {
      formula: `skin effect and the field ${neighbours}; nothing for form and covering`,
      facts: shape.facts,
      assumed: [...shape.assumed, UPPER_BOUND],
      source: isLayered
        ? 'J. C. Maxwell, Treatise, article 701; S. Butterworth (1925); Lord Kelvin'
        : 'R. G. Medhurst, Wireless Engineer 24 (1947) 35; S. Butterworth (1925); Lord Kelvin',
      relativeError: isLayered ? LAYERED_LOSS_ERROR : 0.05,
    },
    [`a frequency, and a make of ${part.name} within the tables`],
  );
}

function woundInductance(shape: WindingShape): Reckoned {
  const coil = singleLayer(shape);
  const { part, facts, assumed, wire, winding } = shape;
  const otherwise = [`a make of ${part.name} that can exist`];
  if (coil) {
    const formula = 'current sheet less the correction for round wire';
    const error = assumed.length > wire.assumed.length ? 2 * WOUND_ERROR : WOUND_ERROR;
    const because = { formula, facts, assumed, source: SINGLE_LAYER, relativeError: error };
    return reckoned(singleLayerInductance(coil), because, otherwise);
  }
  return reckoned(
    thickCoilInductance(winding, wire.bare),
    {
      formula: 'bundles of turns by their geometric mean distance',
      facts,
      assumed,
      source: 'Rosa & Grover, Bureau of Standards Scientific Paper 169 (1912)',
      relativeError: 0.1,
    },
    otherwise,
  );
}

function copperResistance(shape: WindingShape): Reckoned {
  const { part, wire, winding, facts, assumed } = shape;
  if (!wire.gaugeSaid) return unknown(`the wire gauge of ${part.name}`);
  const length = windingWireLength(winding.turns, winding.radius, wire.pitch);
  const each = wireResistancePerMetre(wire.bare);
  return reckoned(
    length !== undefined && each !== undefined ? length * each : undefined,
    {
      formula: 'length of wire times ohms to the metre, at 20 \u00b0C',
      facts,
      assumed,
      source: 'International Annealed Copper Standard, NBS Circular 31 (1914)',
      relativeError: 0.03,
    },
    [`a make of ${part.name} that can exist`],
  );
}

function ownCapacity(shape: WindingShape): Reckoned {
  const { part, winding, facts, assumed } = shape;
  if (winding.depth) return unknown(`the capacity of ${part.name}, wound in layers`);
  return reckoned(
    coilSelfCapacitance(winding.length, 2 * winding.radius),
    {
      formula: 'by length over diameter; the winding by itself, one end grounded',
      facts,
      assumed,
      source: 'R. G. Medhurst, Wireless Engineer 24 (1947) 80',
      relativeError: 0.1,
    },
    [`a winding ${part.name} at least a tenth as long as it is wide`],
  );
}

function sized(value: number, formula: string, { facts, assumed }: WindingShape): Reckoned {
  const because = { formula, facts, assumed, source: 'geometry', relativeError: WOUND_ERROR };
  return { value, because };
}

/**
 * Ohms of a winding by the frequency in hertz, without where they come from: for curves of many
 * points. Undefined for a winding of which not all is known that the losses go by; its ohms, where
 * known, are those at direct current.
 */
export function radioOhms({
  part,
  shape,
}: WindingValues): ((frequency: number) => number | undefined) | undefined {
  if (!shape?.wire.gaugeSaid) return undefined;
  const byMake = ohmsByMake(shape);
  const copper = byMake(0);
  const said = part.values.resistance?.value;
  const more = said !== undefined && copper !== undefined && copper > 0 ? said / copper : 1;
  return (frequency) => {
    const wire = byMake(frequency);
    return wire === undefined ? undefined : wire * more;
  };
}

/** Ohms of a winding's wire by the frequency: by the table of one layer, else by its own field. */
function ohmsByMake(shape: WindingShape): (frequency: number) => number | undefined {
  const coil = singleLayer(shape);
  if (coil) return (frequency) => coilResistance(coil, frequency);
  const { wire, winding } = shape;
  const length = windingWireLength(winding.turns, winding.radius, wire.pitch);
  const each = wireResistancePerMetre(wire.bare);
  const ratio = fieldProximityRatio(turnsInLayers(shape), wire.bare);
  if (length === undefined || each === undefined || ratio === undefined) return () => undefined;
  return (frequency) => woundResistance(length * each, wire.bare, ratio, frequency);
}

/** The turns of a winding in layers one by one, each layer about the middle of its length. */
function turnsInLayers({ winding, wire }: WindingShape): readonly Turn[] {
  const { layers, pitch, covered } = wire;
  const inLayers = winding.turns / layers;
  const inner = winding.radius - ((layers - 1) * covered) / 2;
  const all: Turn[] = [];
  for (let layer = 0; layer < layers; layer++) {
    const count = Math.floor((layer + 1) * inLayers + 0.5) - Math.floor(layer * inLayers + 0.5);
    for (let turn = 0; turn < count; turn++)
      all.push({
        radius: inner + layer * covered,
        position: (turn - (count - 1) / 2) * pitch,
      });
  }
  return all;
}
