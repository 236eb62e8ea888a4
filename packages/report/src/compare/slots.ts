import type { ThingKind } from '@setwright/compare';

/** How a slot is spoken of: `the rating of C5`; an empty one is what the part itself goes by. */
const spoken: Readonly<Record<string, string>> = {
  ratedVoltage: 'voltage rating',
  ratedCurrent: 'current rating',
  ratedPower: 'power rating',
  formLength: 'length of the form',
  form: 'form',
  tuned: 'stated resonance',
  found: 'value found on the bench',
  set: 'setting',
  wire: 'gauge',
  spaced: 'space beside its neighbour',
  paper: 'paper under its wire',
  at: 'place on its neighbour',
  beside: 'neighbour',
  over: 'winding under it',
  inside: 'winding around it',
  coupling: 'coupling',
  words: 'description',
  point: 'published points',
  lines: 'lines',
  stage: 'stage',
  earthed: 'earthed tap',
  around: 'shielding',
  into: 'jack',
  through: 'part in circuit when empty',
};

/** The kinds of part that go by what a slot holds: a leak by its ohms, and a battery not. */
const goneBy: Readonly<Record<string, readonly ThingKind[]>> = {
  capacitance: ['condenser'],
  resistance: [
    'resistor',
    'leak',
    'rheostat',
    'potentiometer',
    'lead',
    'phones',
    'horn',
    'speaker',
  ],
  inductance: ['choke', 'variometer', 'loop'],
  volts: ['lamp', 'ballast'],
  ratedCurrent: ['fuse'],
};

/** What a slot of a kind of part is called; empty where it is what the part goes by. */
export function slotWords(slot: string, kind: ThingKind): string {
  return goneBy[slot]?.includes(kind) ? '' : (spoken[slot] ?? slot);
}

/** Slots that hold what somebody says of a set, and nothing of how it is wired or made. */
export const onlySaid: ReadonlySet<string> = new Set(['title', 'stage', 'note', 'meant', 'source']);

/** Slots of which a part's line is put together where it is new; the others follow. */
const first = ['type', 'capacitance', 'resistance', 'inductance', 'turns', 'wire', 'covering'];

/** Slots in the order in which to tell them of a new part; titles and kinds are told elsewhere. */
export function slotsInOrder(slots: readonly string[]): readonly string[] {
  const told = slots.filter(
    (slot) => !['kind', 'title', 'stage', 'taps', 'contacts'].includes(slot),
  );
  return [
    ...first.filter((slot) => told.includes(slot)),
    ...told.filter((slot) => !first.includes(slot)),
  ];
}
