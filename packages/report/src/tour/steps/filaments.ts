import type { Part } from '@setwright/circuit';
import type { OverlayPath } from '@setwright/diagram';
import { formatQuantity } from '@setwright/units';
import { listed } from '../../text/words.ts';
import type { Grounds } from '../grounds.ts';
import { saidNumber, type Telling, telling } from '../telling.ts';
import type { TourStep } from '../tour.ts';
import { named } from '../wiring.ts';

/** Kinds of part that are turned, or chosen, to give a filament its volts. */
const droppers: ReadonlySet<Part['kind']> = new Set(['rheostat', 'ballast', 'resistor', 'lamp']);

/** The filament circuit: round from the battery, what sets it, what it takes. */
export function filamentsStep(grounds: Grounds): TourStep | undefined {
  const { circuit, point, overlay } = grounds;
  const view = overlay('filaments');
  if (!view || view.paths.length === 0) return undefined;
  const isHeated = circuit.parts.some(({ tubeType }) => tubeType?.heated);
  const tell = telling(grounds, 'filaments', isHeated ? 'The heaters' : 'The filaments');
  const whole = view.paths.filter(({ stopped }) => stopped === undefined);
  const broken = view.paths.filter(({ stopped }) => stopped !== undefined);
  for (const path of whole) tell.path(path);
  const tubes = whole.flatMap((path) => tubeOf(path));
  const switches = partsOn(grounds, whole, 'switch');
  if (whole.length > 0) {
    const inString = whole.filter((path) => fellows(grounds, path).length > 0);
    const how =
      inString.length > 0 ? 'one behind the other' : tubes.length > 1 ? 'side by side' : '';
    const names = [
      ...new Set(whole.flatMap(({ from }) => circuit.partOfEnd.get(from ?? '')?.name ?? [])),
    ];
    const off = switches.length > 0 ? `, and ${listed(switches.map(named))} opens it` : '';
    tell.say(
      `A circuit by itself: ${listed(names)}, the leads and the ${isHeated ? 'heaters' : tubes.length > 1 ? 'filaments' : 'filament'} of ${listed(tubes)}${how === '' ? '' : `, ${how}`}${off}.`,
    );
  }
  const controls = [...controlsOf(grounds, whole)];
  const shown = controlsInWords(tell, controls);
  if (shown.length > 0) tell.say(`${listed(shown)}.`);
  tell.say(wornWords(tell, tubes));
  const supplies = [
    ...new Set(whole.flatMap(({ from }) => circuit.partOfEnd.get(from ?? '') ?? [])),
  ];
  for (const supply of supplies.slice(0, 1)) tell.say(hoursWords(tell, supply));
  for (const { heading, stopped } of broken.slice(0, 2))
    tell.say(`The ${heading} goes nowhere: ${stopped}.`);
  if (tell.said() < 5)
    tell.lesson(
      'filaments 1',
      isHeated
        ? 'That a heater glows shows that it is whole, and not that its cathode still gives electrons.'
        : 'That a tube glows shows that its filament is whole, and not that it still gives electrons.',
    );
  if (tell.said() < 2 && point.converged)
    tell.say('What each of them gets cannot be told more nearly from the text.');
  return tell.done(view);
}

function tubeOf({ steps }: OverlayPath): string[] {
  const own = steps.find(({ in: end }) => end.endsWith('.filament+'));
  return own ? [own.part] : [];
}

/** Other tubes through whose filaments the same current runs. */
function fellows({ circuit }: Grounds, path: OverlayPath): readonly string[] {
  const tubes = path.steps.filter(({ part }) => circuit.partNamed.get(part)?.kind === 'tube');
  return tubes.slice(1).map(({ part }) => part);
}

function partsOn(
  { circuit }: Grounds,
  paths: readonly OverlayPath[],
  kind: Part['kind'],
): readonly Part[] {
  const names = new Set(paths.flatMap(({ steps }) => steps.map(({ part }) => part)));
  return circuit.parts.filter((part) => part.kind === kind && names.has(part.name));
}

/** What lies in the way of filament current on purpose, with the tubes that each is for. */
function controlsOf(
  { circuit }: Grounds,
  paths: readonly OverlayPath[],
): ReadonlyMap<Part, readonly string[]> {
  const found = new Map<Part, string[]>();
  for (const path of paths) {
    const [tube] = path.steps
      .filter(({ in: end }) => end.endsWith('.filament+'))
      .map(({ part }) => part);
    for (const { part: name } of path.steps) {
      const part = circuit.partNamed.get(name);
      if (!part || !droppers.has(part.kind) || tube === undefined) continue;
      found.set(part, [...(found.get(part) ?? []), tube]);
    }
  }
  return found;
}

/** No more of what is in the leads in one sentence. */
const MOST = 4;

/** What each of them takes: those alike, one in the lead of each tube, are told together. */
function controlsInWords(
  tell: Telling,
  controls: readonly (readonly [Part, readonly string[]])[],
): readonly string[] {
  const alike = new Map<string, (readonly [Part, readonly string[]])[]>();
  for (const each of controls) {
    const [control, behind] = each;
    const isOwn = control.kind !== 'rheostat' && behind.length === 1;
    const drop = isOwn ? dropOf(tell, control) : undefined;
    const key = drop === undefined ? control.name : `${control.kind} ${drop}`;
    alike.set(key, [...(alike.get(key) ?? []), each]);
  }
  const told = [...alike.values()].map((group) => {
    const [first] = group;
    if (!first || group.length === 1) return first ? controlWords(tell, ...first) : '';
    const names = group.map(([{ name }]) => name);
    const tubes = group.flatMap(([, behind]) => behind);
    return `${listed(names)} are in the leads of ${listed(tubes)} and take ${dropOf(tell, first[0])} each`;
  });
  return told.slice(0, MOST);
}

/** Volts across a part, the higher end first. */
function dropOf(tell: Telling, control: Part): string | undefined {
  const [first, last] = [control.ends[0]?.id, control.ends.at(-1)?.id];
  const across =
    first !== undefined && last !== undefined ? tell.grounds.point.voltage(first, last) : undefined;
  const [high, low] = (across ?? 0) >= 0 ? [first, last] : [last, first];
  return high !== undefined && low !== undefined ? tell.volts(high, low) : undefined;
}

function controlWords(tell: Telling, control: Part, behind: readonly string[]): string {
  const drop = dropOf(tell, control);
  const stand = tell.grounds.point.controls.find(({ part }) => part === control.name);
  const found = stand && control.setting === undefined && control.kind === 'rheostat';
  const at = found ? `, if it stands where it should` : '';
  const verb = control.kind === 'rheostat' ? 'sets' : 'is in the lead of';
  return `${named(control)} ${verb} ${listed(behind)}${drop ? ` and takes ${drop}${at}` : ''}`;
}

/** What the filaments get, beside what their type is to have. */
function wornWords(tell: Telling, tubes: readonly string[]): string | undefined {
  const { circuit } = tell.grounds;
  const groups = new Map<string, string[]>();
  for (const tube of tubes) {
    const volts = tell.value(tube, 'filament-voltage');
    const type = circuit.partNamed.get(tube)?.tubeType;
    if (volts === undefined) continue;
    const rated =
      type?.filamentVolts === undefined
        ? undefined
        : tell.number({
            words: `filament volts of type ${type.name}`,
            text: `${trimmed(type.filamentVolts)} V`,
            value: type.filamentVolts,
            because: type.source ?? 'the tube library',
            source: { from: 'type', tube, what: 'filament' },
          });
    const key =
      rated === undefined
        ? volts
        : rated === volts
          ? `the ${volts} that the ${type?.name} is made for`
          : `${volts} where the ${type?.name} is made for ${rated}`;
    groups.set(key, [...(groups.get(key) ?? []), tube]);
  }
  const words = [...groups].map(
    ([text, names]) => `${listed(names)} ${names.length > 1 ? 'get' : 'gets'} ${text}`,
  );
  return words.length > 0 ? `${listed(words)}.` : undefined;
}

const trimmed = (value: number): string => String(Number(value.toPrecision(3)));

function hoursWords(tell: Telling, supply: Part): string | undefined {
  const drain = tell.value(supply.name, 'drain', { sign: 'none' });
  if (drain === undefined) return undefined;
  const { point } = tell.grounds;
  const found = point.supplies.find((each) => each.supply === supply.name);
  const hours =
    found?.hours &&
    tell.number({
      words: `hours of service of ${supply.name}`,
      // Nobody knows a battery to three figures.
      text: `${formatQuantity(found.hours.value, 'ratio', tell.grounds.style, 2)} hours`,
      value: found.hours.value,
      because: found.hours.because.formula,
      source: { from: 'values', part: supply.name, quantity: 'hours' },
    });
  const said = saidNumber(tell, supply.name, 'capacity', `capacity of ${supply.name}`);
  if (hours === undefined || said === undefined) return `${supply.name} gives ${drain} in all.`;
  return `${supply.name} gives ${drain} in all, so that its ${said} last some ${hours}.`;
}
