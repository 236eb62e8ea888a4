import {
  assemble,
  type Circuit,
  type Contact,
  endId,
  type PartDraft,
  type PartKindName,
  type Place,
  partKinds,
  type TubeType,
  type Value,
} from '@setwright/circuit';
import type { Dimension } from '@setwright/units';

/** A place that no test looks at. */
export const nowhere: Place = { file: 'test.receiver', start: 0, end: 0 };

/** A quantity as if written. */
export function value(amount: number, dimension: Dimension): Value {
  return { value: amount, dimension, text: `${amount}`, place: nowhere };
}

/** A part of a kind with the ends that its kind has, and whatever else is given. */
export function part(kind: PartKindName, name: string, given: Partial<PartDraft> = {}): PartDraft {
  return {
    name,
    kind,
    title: undefined,
    owner: undefined,
    stage: undefined,
    place: nowhere,
    namePlace: nowhere,
    ends: partKinds[kind].ends,
    values: {},
    ranges: {},
    words: new Set(),
    setting: undefined,
    positions: [],
    drawnAt: 0,
    contacts: [],
    taps: [],
    supplyTaps: [],
    winding: undefined,
    typeName: undefined,
    tubeType: undefined,
    sidesKnown: false,
    companions: [],
    unread: false,
    ...given,
  };
}

/** A part with a resistance in ohms. */
export function ohms(
  kind: PartKindName,
  name: string,
  amount: number,
  given: Partial<PartDraft> = {},
): PartDraft {
  return part(kind, name, { values: { resistance: value(amount, 'resistance') }, ...given });
}

/** A battery by its taps: `battery('B', { 'B-': 0, 'B+45': 45 })`. */
export function battery(
  name: string,
  taps: Readonly<Record<string, number | undefined>>,
  given: Partial<PartDraft> = {},
): PartDraft {
  return part('battery', name, {
    ends: Object.keys(taps),
    supplyTaps: Object.entries(taps).map(([end, volts]) => ({
      end,
      volts,
      said: undefined,
      resistance: undefined,
      atLoad: undefined,
      place: nowhere,
    })),
    ...given,
  });
}

/** A tube type with a filament of these volts and amperes. */
export function filamentType(name: string, volts: number, amperes: number): TubeType {
  return {
    name,
    title: undefined,
    place: nowhere,
    builtIn: true,
    base: undefined,
    filamentVolts: volts,
    filamentAmperes: amperes,
    heated: false,
    amplification: undefined,
    points: [],
    capacitances: {},
    plateLimit: undefined,
    screenLimit: undefined,
    detector: undefined,
    soft: false,
    screen: false,
    pentode: false,
    source: undefined,
  };
}

/** Filament ratings as printed in receiving-tube manuals of the time, from memory. */
const type01A = filamentType('01-A', 5, 0.25);
export const type99 = filamentType('99', 3.3, 0.063);

/** A tube; of type 01-A where nothing else is said. */
export function tube(name: string, tubeType: TubeType | undefined = type01A): PartDraft {
  return part('tube', name, { tubeType, typeName: tubeType?.name });
}

/** A switch that joins its start to its finish when closed. */
export function onOff(name: string, drawn: 'open' | 'closed'): PartDraft {
  return part('switch', name, {
    words: new Set([drawn]),
    positions: ['open', 'closed'],
    drawnAt: drawn === 'open' ? 0 : 1,
    contacts: [contact(`${name}.start`, `${name}.finish`, 1)],
  });
}

/** A selector from its arm to these terminals, one position each. */
export function selector(name: string, studs: readonly string[], drawnAt = 0): PartDraft {
  return part('selector', name, {
    positions: studs,
    drawnAt,
    contacts: studs.map((stud, position) => contact(`${name}.arm`, stud, position)),
  });
}

/** A jack: empty it joins tip to sleeve, plugged it leads through what is plugged in. */
export function jack(name: string, plug?: string, drawnAt = 0): PartDraft {
  return part('jack', name, {
    positions: ['empty', 'plugged'],
    drawnAt,
    contacts: [
      contact(`${name}.tip`, `${name}.sleeve`, 0),
      ...(plug === undefined
        ? []
        : [
            contact(`${name}.tip`, `${plug}.start`, 1),
            contact(`${name}.sleeve`, `${plug}.finish`, 1),
          ]),
    ],
  });
}

/** A contact that is closed at these positions. */
export function contact(from: string, to: string, ...closedAt: number[]): Contact {
  return { from, to, closedAt, place: nowhere };
}

/** A set of these parts with these terminals joined: each entry is one wire, `A+ B- GND`. */
export function setOf(parts: readonly PartDraft[], wires: readonly string[]): Circuit {
  const idOf = new Map<string, string>();
  for (const draft of parts) {
    for (const end of draft.ends) {
      const id = endId(draft, end);
      idOf.set(id, id);
      if (draft.kind === 'battery' || draft.kind === 'eliminator') idOf.set(end, id);
    }
  }
  return assemble({
    title: 'a set',
    place: nowhere,
    namePlace: nowhere,
    year: undefined,
    tunes: undefined,
    notes: [],
    parts,
    joins: wires.flatMap((wire) => {
      const terminals = wire.split(' ').map((terminal) => {
        const id = idOf.get(terminal);
        if (id === undefined) throw new Error(`no terminal ${terminal} in this set`);
        return id;
      });
      return terminals
        .slice(1)
        .map((to) => ({ from: terminals[0] as string, to, place: nowhere, said: 'wire' }));
    }),
    stages: [],
    gangs: [],
    dials: [],
    waivers: [],
    benches: [],
    supposes: [],
    remarks: [],
    unread: [],
  });
}

/** The junction of a terminal. */
export function junction(circuit: Circuit, id: string): number {
  const end = circuit.endNamed.get(id);
  if (!end) throw new Error(`no terminal ${id} in this set`);
  return end.junction;
}
