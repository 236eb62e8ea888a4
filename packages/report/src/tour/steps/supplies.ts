import { isFilamentSupply, type Part, zeroTap } from '@setwright/circuit';
import { listed } from '../../text/words.ts';
import type { Grounds } from '../grounds.ts';
import { plainOverlay, type Telling, telling } from '../telling.ts';
import type { TourStep } from '../tour.ts';
import { called, endOf, named, suppliesOf } from '../wiring.ts';

/** The batteries, where each tap goes, and where the signal's own power comes from. */
export function suppliesStep(grounds: Grounds): TourStep {
  const { circuit } = grounds;
  const supplies = suppliesOf(circuit);
  const tell = telling(grounds, 'supplies', 'What feeds it');
  const entrance = circuit.parts.find(
    ({ kind, words }) => kind === 'loop' || (kind === 'post' && words.has('aerial')),
  );
  for (const supply of supplies) tell.say(supplyWords(tell, supply));
  const signal = entrance ? `The signal comes from ${named(entrance)}` : undefined;
  if (supplies.length === 0) {
    const sounding = circuit.parts.find(({ kind }) => kind === 'phones');
    tell.say('It has no battery, and so nothing in it can be burnt out by a wrong lead.');
    if (signal && sounding)
      tell.say(`${signal}, and so does all the power that moves ${named(sounding)}.`);
    else tell.say(signal && `${signal}; nothing else comes in.`);
  } else if (signal && tell.said() < 5) tell.say(`${signal}; nothing else comes in.`);
  if (tell.said() < 2)
    tell.lesson(
      'supplies 1',
      'Every volt in the set is counted between two points, never at one alone.',
    );
  const names = supplies.map(({ name }) => name);
  tell.parts(...names, ...(entrance ? [entrance.name] : []));
  return tell.done(plainOverlay('What feeds it', [...names, ...(entrance ? [entrance.name] : [])]));
}

function supplyWords(tell: Telling, supply: Part): string {
  const { grounds } = tell;
  const heated = lit(grounds, supply);
  const fed = fedBy(grounds, supply);
  const held = heldBy(grounds, supply);
  const what = `${supply.name}${supply.title === undefined ? '' : ` (${supply.title})`}`;
  const jobs: string[] = [];
  if (heated.length > 0) {
    const top = supply.supplyTaps.find((tap) => tap !== zeroTap(supply));
    const volts = top && tell.value(top.end, 'voltage');
    const drain = tell.value(supply.name, 'drain', { sign: 'none' });
    const gives = drain && volts ? `: it gives ${drain} at ${volts}` : '';
    jobs.push(
      `${heaterWords(grounds, true).startsWith('heater') ? 'warms' : 'heats'} the ${heaterWords(grounds, heated.length > 1)} of ${listed(heated)}${gives}`,
    );
  }
  if (fed.length > 0) {
    const taps = fed.map(({ tap, tubes }) => {
      const id = endOf(supply, tap)?.id;
      if (id !== undefined)
        for (const electrode of tubes) tell.fact({ kind: 'feeds', tap: id, electrode });
      return `${tap} feeds ${listed(electrodesOf(tubes))}`;
    });
    const drain =
      heated.length > 0 ? undefined : tell.value(supply.name, 'drain', { sign: 'none' });
    jobs.push(
      `moves the plate ${fed.flatMap(({ tubes }) => tubes).length > 1 ? 'currents' : 'current'}${drain ? `, ${drain} in all` : ''}: ${listed(taps)}`,
    );
  }
  if (held.length > 0 && heated.length === 0) {
    for (const tube of held) tell.fact({ kind: 'biases', supply: supply.name, tube });
    const drain = tell.grounds.point.supplies.find((each) => each.supply === supply.name)?.drain;
    const none = drain && Math.abs(drain.value) < 1e-5 ? ' and gives practically no current' : '';
    jobs.push(`holds the ${held.length > 1 ? 'grids' : 'grid'} of ${listed(held)} back${none}`);
  }
  if (jobs.length === 0) {
    const taps = supply.supplyTaps.map(({ end }) => end);
    const job = isFilamentSupply(supply) ? 'heats no filament' : 'feeds no plate';
    return `${what}, with its taps ${listed(taps)}, ${job} as the set is wired here.`;
  }
  return `${what} ${listed(jobs, 'and')}.`;
}

function heaterWords({ circuit }: Grounds, isSeveral: boolean): string {
  const isHeated = circuit.parts.some(({ tubeType }) => tubeType?.heated);
  const isDirect = circuit.parts.some(({ kind, tubeType }) => kind === 'tube' && !tubeType?.heated);
  const one = isHeated ? 'heater' : 'filament';
  if (isHeated && isDirect) return 'heaters and filaments';
  return isSeveral ? `${one}s` : one;
}

/** The tubes whose filament a supply lights. */
function lit(grounds: Grounds, supply: Part): readonly string[] {
  const paths = grounds.overlay('filaments')?.paths ?? [];
  return paths.flatMap(({ steps, stopped, from }) => {
    if (stopped !== undefined) return [];
    const owner = grounds.circuit.partOfEnd.get(from ?? '');
    const tube = steps.find(({ in: end }) => end.endsWith('.filament+'));
    return owner?.name === supply.name && tube ? [tube.part] : [];
  });
}

/** Taps of a supply with the plates and screens that they feed, by their terminals. */
function fedBy(
  grounds: Grounds,
  supply: Part,
): readonly { readonly tap: string; readonly tubes: readonly string[] }[] {
  const paths = grounds.overlay('plate')?.paths ?? [];
  const found = new Map<string, string[]>();
  for (const { kind, from, steps, stopped, heading } of paths) {
    const owner = grounds.circuit.partOfEnd.get(from ?? '');
    if (kind !== 'direct' || owner?.name !== supply.name || from === undefined) continue;
    const tube = steps.find(({ in: end }) => /\.(?:plate|screen)$/.test(end));
    if (!tube || (stopped !== undefined && heading.startsWith('return'))) continue;
    const tap = called(grounds.circuit, from);
    found.set(tap, [...(found.get(tap) ?? []), tube.in]);
  }
  return supply.supplyTaps.flatMap(({ end }) => {
    const tubes = found.get(end);
    return tubes ? [{ tap: end, tubes }] : [];
  });
}

/** Plates go by their tube's name, screens are told as such. */
function electrodesOf(terminals: readonly string[]): readonly string[] {
  const tubes = terminals.filter((id) => id.endsWith('.plate')).map((id) => id.slice(0, -6));
  const screens = terminals.filter((id) => id.endsWith('.screen')).map((id) => id.slice(0, -7));
  return [
    ...tubes,
    ...(screens.length > 0
      ? [`the ${screens.length > 1 ? 'screens' : 'screen'} of ${listed(screens)}`]
      : []),
  ];
}

/** The tubes in whose grid lead a supply lies. */
function heldBy(grounds: Grounds, supply: Part): readonly string[] {
  const paths = grounds.overlay('bias')?.paths ?? [];
  return paths.flatMap(({ from, steps, stopped }) => {
    const isIn = stopped === undefined && steps.some(({ part }) => part === supply.name);
    return isIn && from !== undefined ? [from.replace(/\.grid$/, '')] : [];
  });
}
