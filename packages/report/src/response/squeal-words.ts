import { type GrowingMode, type Margin, regenerationControls } from '@setwright/analysis';
import { type Circuit, rolesOf } from '@setwright/circuit';
import { formatQuantity } from '@setwright/units';
import { listed } from '../text/words.ts';
import type { UnitStyle } from '../values/quantities.ts';
import { growing, type SetResponse, type StationTold } from './response-of.ts';
import { USUAL_QUALITY } from './squeal-cure.ts';

/** How quiet a set is at a station, in a word or two. */
export function quietWords({ quiet }: StationTold, style: UnitStyle): string {
  if (!quiet) return 'not known';
  const inTune = growing(quiet.aligned);
  if (inTune === undefined) return 'not known';
  if (inTune > 0) return `squeals${frequencyWords(quiet.aligned.modes, style)}`;
  const apart = growing(quiet.worst.modes);
  if (apart === undefined) return 'not known apart';
  return apart > 0 ? `squeals apart${frequencyWords(quiet.worst.modes.modes, style)}` : 'quiet';
}

function frequencyWords(modes: readonly GrowingMode[], style: UnitStyle): string {
  const [fastest] = modes;
  return fastest ? ` at ${formatQuantity(fastest.frequency, 'frequency', style)}` : '';
}

/** Whether the set oscillates, in a sentence or two. */
export function verdictWords(
  { circuit, stability, stations, missing }: SetResponse,
  style: UnitStyle,
): string {
  const isTubeless = !circuit.parts.some(({ kind }) => kind === 'tube');
  if (missing.length === 0 && isTubeless) return 'It has no tube that could squeal.';
  const howl = growing(stability.audio);
  const tones = stability.audio.modes.map(({ frequency }) =>
    frequency > 0 ? formatQuantity(frequency, 'frequency', style) : 'next to no frequency',
  );
  const howls =
    howl !== undefined && howl > 0
      ? ` At audio frequencies it howls or motorboats${tones.length > 0 ? ` at ${listed(tones)}` : ''}.`
      : '';
  if (missing.length > 0) return `Whether it squeals cannot be told.${howls}`;
  const bad = (kind: 'aligned' | 'worst'): string => {
    const isBad = stations.map(({ quiet }) => {
      const modes = kind === 'aligned' ? quiet?.aligned : quiet?.worst.modes;
      return modes !== undefined && (growing(modes) ?? 0) > 0;
    });
    return stretches(
      stations.map(({ heard }) => formatQuantity(heard.frequency, 'frequency', style)),
      isBad,
    );
  };
  const by = feedersOf(stations);
  const keeps =
    by.length > 0
      ? ` ${listed(by)} ${by.length > 1 ? 'keep' : 'keeps'} it going${ticklerWords(circuit, by)}.`
      : '';
  switch (stability.verdict) {
    case 'steady':
      return `It is steady: no dial off tune makes it squeal.${howls}`;
    case 'mistuned': {
      const where = bad('worst');
      return `It squeals with its dials apart${where === '' ? '' : ` near ${where}`}, not in tune.${keeps}${howls}`;
    }
    case 'aligned': {
      const where = bad('aligned');
      // What grows at audio frequencies alone is told of by that.
      if (where === '' && howls !== '') return howls.trim();
      return `It oscillates by itself${where === '' ? '' : ` in tune with ${where}`}.${keeps}${howls}`;
    }
    case 'unknown':
      return `Whether it squeals could not be reckoned.${howls}`;
  }
}

/**
 * A tickler that the text does not say to turn is taken as fixed: nobody could listen to a set
 * with one that always oscillates.
 */
function ticklerWords(circuit: Circuit, by: readonly string[]): string {
  const [tube, ...more] = by;
  const part = circuit.partNamed.get(tube ?? '');
  if (!part || more.length > 0 || !rolesOf(circuit, part).includes('detector')) return '';
  const plate = part.ends.find(({ name }) => name === 'plate')?.junction;
  const turned = new Set(regenerationControls(circuit));
  const tickler = circuit.parts.find(
    (each) =>
      each.kind === 'winding' &&
      !turned.has(each) &&
      circuit.partNamed.get(each.owner ?? '')?.kind === 'coil' &&
      each.ends.some(({ junction }) => junction === plate),
  );
  return tickler
    ? ` by ${tickler.name}, which is taken as fixed: if it turns, the text should say how it stands, as in: set 30 %`
    : '';
}

/** Some of a row, neighbours taken together: `550 kc, 700 kc to 1000 kc and 1500 kc`. */
function stretches(names: readonly string[], isChosen: readonly boolean[]): string {
  if (names.length > 2 && isChosen.every(Boolean)) return 'the whole band';
  const runs: string[][] = [];
  for (const [index, name] of names.entries()) {
    if (!isChosen[index]) continue;
    const run = isChosen[index - 1] ? runs.at(-1) : undefined;
    if (run) run.push(name);
    else runs.push([name]);
  }
  return listed(runs.flatMap((run) => (run.length > 2 ? [`${run[0]} to ${run.at(-1)}`] : run)));
}

/** The tubes that keep squealing going, at whatever station. */
function feedersOf(stations: readonly StationTold[]): readonly string[] {
  return [
    ...new Set(
      stations.flatMap(({ quiet }) =>
        quiet
          ? [quiet.aligned, quiet.worst.modes].flatMap((found) =>
              (growing(found) ?? 0) > 0 ? found.modes.flatMap(({ tubes }) => tubes ?? []) : [],
            )
          : [],
      ),
    ),
  ].sort();
}

/** What would just cure a set that squeals, in plain words; empty for one that does not. */
export function cureWords({ circuit, cure }: SetResponse, style: UnitStyle): string {
  if (!cure) return '';
  const { margin, quality, usually, usualMargin } = cure;
  const { tubes } = margin;
  const each = tubes.length > 1 ? 'each of ' : '';
  const { ohms, farads } = amountsOf(circuit, margin, style);
  const ways = [
    ...(ohms === undefined ? [] : [`about ${ohms} ${leadWords(circuit, tubes)}`]),
    ...(farads === undefined
      ? []
      : [
          `neutralizing that balances at least ${farads} between grid and plate of ${each}${listed(tubes)}`,
        ]),
  ];
  if (tubes.length === 0 || ways.length === 0) {
    if (usually === undefined) return '';
    return usually
      ? `It squeals with coils of a usual Q of ${USUAL_QUALITY} as well.`
      : `With coils of a usual Q of ${USUAL_QUALITY} it is quiet.`;
  }
  const bound =
    quality === undefined
      ? `That is with the losses of the wire alone${usualWords(circuit, usually, usualMargin, style)}.`
      : `That is with coils of a usual Q of ${quality}.`;
  return `It would just be quiet with ${ways.join(', or with ')}. ${bound}`;
}

/** What a margin asks for in ohms and in farads, as far as that is of use. */
function amountsOf(
  { partNamed }: Circuit,
  { tubes, seriesResistance, gridPlate }: Margin,
  style: UnitStyle,
): { readonly ohms: string | undefined; readonly farads: string | undefined } {
  const isScreened = tubes.some((tube) => partNamed.get(tube)?.tubeType?.screen);
  return {
    ohms:
      seriesResistance !== undefined && seriesResistance > 0
        ? formatQuantity(seriesResistance, 'resistance', style, 2)
        : undefined,
    farads:
      gridPlate !== undefined && gridPlate < 0 && !isScreened
        ? formatQuantity(-gridPlate, 'capacitance', style, 2)
        : undefined,
  };
}

/** What coils that lose more make of it. */
function usualWords(
  circuit: Circuit,
  usually: boolean | undefined,
  usualMargin: Margin | undefined,
  style: UnitStyle,
): string {
  const { ohms, farads } = usualMargin ? amountsOf(circuit, usualMargin, style) : {};
  const amounts = [...(ohms ? [`about ${ohms}`] : []), ...(farads ? [farads] : [])];
  if (usually === undefined) return ': less will do where coils lose more';
  if (!usually) return `; with coils of a usual Q of ${USUAL_QUALITY} it is quiet`;
  return amounts.length > 0
    ? `; with coils of a usual Q of ${USUAL_QUALITY}, with which it squeals as well, ${amounts.join(' or ')} will do`
    : `; it squeals with coils of a usual Q of ${USUAL_QUALITY} as well`;
}

/** Where the ohms go: into lossers that are there, or into the leads of the grids. */
function leadWords(circuit: Circuit, tubes: readonly string[]): string {
  const lossers = tubes.map((tube) => losserOf(circuit, tube));
  const known = lossers.flatMap((name) => name ?? []);
  if (known.length === tubes.length) return `more in ${listed(known)}`;
  const more = known.length > 0 ? 'more than there is ' : '';
  return `${more}in the lead of ${tubes.length > 1 ? 'each of ' : ''}${listed(tubes.map((tube) => `${tube}.grid`))}`;
}

/** The most ohms of a resistor that stands before a grid to hold it down. Common practice. */
const MOST_LOSSER = 10e3;

function losserOf({ parts, partNamed }: Circuit, tube: string): string | undefined {
  const grid = partNamed.get(tube)?.ends.find(({ name }) => name === 'grid')?.junction;
  return parts.find(
    ({ kind, ends, values }) =>
      kind === 'resistor' &&
      ends.some(({ junction }) => junction === grid) &&
      (values.resistance?.value ?? Number.POSITIVE_INFINITY) <= MOST_LOSSER,
  )?.name;
}
