import { directCurrent } from '@setwright/analysis';
import { asOn, type Circuit, isSupply, type Part, type Settings } from '@setwright/circuit';
import { listed } from '../../text/words.ts';
import type { Grounds } from '../grounds.ts';
import { plainOverlay, telling } from '../telling.ts';
import type { TourStep } from '../tour.ts';
import { called, endOf, named, suppliesOf } from '../wiring.ts';

/** Direct current above this, in volts, is treated as able to hurt. Common practice. */
const HURTING_VOLTS = 60;

/** Farads from which on a condenser holds a charge worth minding. Common practice. */
const HOLDS = 0.1e-6;

/** No more names than these in one sentence. */
const MOST = 8;

/** What can hurt, what stays live with the set switched off, what a slip costs. */
export function safetyStep(grounds: Grounds): TourStep {
  const { circuit } = grounds;
  const tell = telling(grounds, 'safety', 'Before a hand goes in');
  const zero = zeroOf(circuit);
  const live = zero === undefined ? [] : liveTerminals(circuit, zero, 'on');
  const mains = suppliesOf(circuit).filter(({ kind }) => kind === 'eliminator');
  const tubes = circuit.parts.filter(({ kind }) => kind === 'tube');
  if (live.length > 0 && zero !== undefined) {
    for (const { id } of live) tell.fact({ kind: 'live', terminal: id, switches: 'on' });
    const names = live.map(({ id }) => called(circuit, id));
    const shown = names.slice(0, MOST);
    const rest = names.length - shown.length;
    const most = live.reduce((a, b) => (b.volts > a.volts ? b : a));
    const volts = tell.volts(most.id, zero);
    tell.say(
      `More than ${HURTING_VOLTS} V from ${called(circuit, zero)}, and able to hurt, ${live.length > 1 ? 'are' : 'is'} ${rest > 0 ? `${shown.join(', ')} and ${rest} more` : listed(shown)}${volts ? `; the most, ${volts}, is at ${called(circuit, most.id)}` : ''}.`,
    );
    tell.say(switchWords(grounds, zero, live, tell));
  } else if (suppliesOf(circuit).length > 0)
    tell.say(
      `By the text nothing here stands more than ${HURTING_VOLTS} V from its zero, but a shorted battery heats its leads and can start a fire.`,
    );
  if (mains.length > 0)
    tell.say(
      `${listed(mains.map(named))} runs from the mains, which can kill, and its own condensers stay charged: unplug it, let them discharge, and leave its repair to licensed hands and the local code.`,
    );
  const charged = circuit.parts.filter(
    ({ kind, values, ends }) =>
      kind === 'condenser' &&
      (values.capacitance?.value ?? 0) >= HOLDS &&
      Math.abs(grounds.point.voltage(ends[0]?.id ?? '', ends[1]?.id ?? '') ?? 0) > HURTING_VOLTS,
  );
  const work =
    charged.length > 0
      ? `discharge ${listed(charged.map(({ name }) => name))} through a resistor and measure before you touch`
      : 'measure before you touch';
  if (live.length > 0) tell.say(`Take the B leads off at the supply, then ${work}.`);
  if (tubes.length > 0)
    tell.say(
      live.length > 0
        ? `A slip that joins such a point to a filament burns out ${tubes.length > 1 ? `every tube on that lead, up to all ${tubes.length}` : 'the tube'}, and none like ${tubes.length > 1 ? 'them are' : 'it is'} made any more.`
        : undefined,
    );
  const outside = circuit.parts.find(({ kind, words }) => kind === 'post' && words.has('aerial'));
  if (outside && tell.said() < 5)
    tell.say(
      `Put up no aerial for ${named(outside)} near power lines; what it and its ground need against lightning the local code says.`,
    );
  if (tell.said() < 2 && outside)
    tell.say('Leave the aerial off, and the phones off the head, when a storm is about.');
  const names = live.flatMap(({ id }) => circuit.partOfEnd.get(id)?.name ?? []);
  tell.parts(...names);
  return tell.done(
    plainOverlay('Before a hand goes in', live.length > 0 ? live.map(({ id }) => id) : undefined),
  );
}

/** Ground, or where the filaments' battery begins. */
export function zeroOf(circuit: Circuit): string | undefined {
  const ground = circuit.parts.find(({ kind, words }) => kind === 'post' && words.has('ground'));
  const battery = suppliesOf(circuit)[0];
  return ground?.ends[0]?.id ?? endOf(battery as Part, battery?.supplyTaps[0]?.end ?? '')?.id;
}

/** A terminal with its volts from zero, by size. */
interface Live {
  readonly id: string;
  readonly volts: number;
}

/** Taps, posts, plates, screens and jacks that stand high with the set on, or switched off. */
export function liveTerminals(
  circuit: Circuit,
  zero: string,
  switches: 'on' | 'off',
): readonly Live[] {
  const on = asOn(circuit).settings;
  const settings: Settings = switches === 'on' ? on : switchedOff(circuit, on);
  const solved = directCurrent(circuit, settings);
  const seen = new Set<number>();
  return circuit.parts.flatMap((part) =>
    part.ends.flatMap((end): Live[] => {
      const isTouched =
        isSupply(part) ||
        part.kind === 'post' ||
        part.kind === 'jack' ||
        (part.kind === 'tube' && (end.name === 'plate' || end.name === 'screen'));
      const volts = isTouched ? solved.voltage(end.id, zero) : undefined;
      if (volts === undefined || Math.abs(volts) <= HURTING_VOLTS) return [];
      if (seen.has(end.junction)) return [];
      seen.add(end.junction);
      return [{ id: end.id, volts: Math.abs(volts) }];
    }),
  );
}

/** The settings with every switch open. */
function switchedOff(circuit: Circuit, on: Settings): Settings {
  const positions = new Map(on.positions);
  for (const part of circuit.parts) {
    const open = part.kind === 'switch' ? part.positions.indexOf('open') : -1;
    if (open >= 0) positions.set(part.name, open);
  }
  return { ...on, positions };
}

/** What the switches do to what is live. */
function switchWords(
  { circuit }: Grounds,
  zero: string,
  live: readonly Live[],
  tell: ReturnType<typeof telling>,
): string {
  const switches = circuit.parts.filter(({ kind }) => kind === 'switch');
  if (switches.length === 0) return 'No switch of this set takes that off.';
  const off = liveTerminals(circuit, zero, 'off').filter(
    ({ id }) => !isSupply(circuit.partOfEnd.get(id) as Part),
  );
  const names = listed(switches.map(named));
  const inside = live.filter(({ id }) => !isSupply(circuit.partOfEnd.get(id) as Part));
  if (inside.length === 0 || off.length > 0) {
    for (const { id } of off.slice(0, 1))
      tell.fact({ kind: 'live', terminal: id, switches: 'off' });
    const at = off[0]
      ? `: ${called(circuit, off[0].id)}, for one, stays as high as it was or higher`
      : '';
    return `${names} ${switches.length > 1 ? 'do' : 'does'} not take it off${at}.`;
  }
  return `${names} ${switches.length > 1 ? 'take' : 'takes'} it off the set, but not off the supply's own terminals.`;
}
