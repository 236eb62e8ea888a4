import { addTickler, putCoupler, putUntuned, type TunedCircuit } from './couplers.ts';
import { bus, type Draft, put, wire } from './draft.ts';
import type { Supplies } from './supplies.ts';
import { type PlacedTube, putTube } from './tube.ts';

export interface RadioHabits {
  readonly screened: boolean;
  readonly neutralized: boolean;
  readonly stabilizer: string | undefined;
}

/** A radio stage: from one tuned circuit through a tube to the next. */
export function putRadioStage(
  draft: Draft,
  supplies: Supplies,
  from: TunedCircuit,
  habits: RadioHabits,
): TunedCircuit {
  const { chance } = draft;
  const { family } = supplies;
  const screened = habits.screened && family.screen !== undefined;
  const type = (screened ? family.screen : undefined) ?? chance.one(family.general);
  const losser = !screened && !habits.neutralized && chance.percent(40);
  const tube = putTube(
    draft,
    supplies,
    type,
    losser || chance.percent(30) ? {} : { grid: from.hot },
  );
  if (losser)
    put(draft, 'resistor', 'R', '1000 ohms', [
      ['from', from.hot],
      ['to', tube.grid],
    ]);
  else if (!tube.line.block?.some(({ joins }) => joins[0]?.led === 'grid')) {
    wire(draft, from.hot, tube.grid);
  }
  if (screened) putScreen(draft, supplies, tube);
  if (chance.percent(30) && from.coil) {
    put(draft, 'shield', 'SH', '', [
      ['around', from.coil.name, tube.name],
      ['to', supplies.earth],
    ]);
  }
  if (chance.percent(40)) bypass(draft, supplies, supplies.radioTap, '.5 mfd');
  if (!habits.neutralized && chance.percent(12)) return putUntuned(draft, supplies, tube.plate);
  const next = putCoupler(draft, supplies, tube.plate, habits.stabilizer, habits.neutralized);
  if (habits.neutralized && next.tap !== undefined) {
    const size = 'neutralizing 2 to 15 mmfd';
    put(draft, 'condenser', 'CN', size, [
      ['from', tube.grid],
      ['to', next.tap],
    ]);
  }
  return next;
}

/** A screen at its tap, directly or through a resistance, with its bypass. */
function putScreen(draft: Draft, supplies: Supplies, { name, line }: PlacedTube): void {
  const { chance } = draft;
  const screen = `${name}.screen`;
  if (chance.percent(70)) {
    line.block?.push({
      part: undefined,
      words: '',
      joins: [{ led: 'screen', targets: [supplies.radioTap] }],
      after: '',
      block: undefined,
    });
  } else {
    put(draft, 'resistor', 'R', '50 kilohms', [
      ['from', supplies.powerTap],
      ['to', screen],
    ]);
  }
  if (chance.percent(80)) {
    const cold = chance.percent(50) ? supplies.minus : `${name}.filament-`;
    put(draft, 'condenser', 'C', '.5 mfd', [
      ['from', screen],
      ['to', cold],
    ]);
  }
}

export function bypass(draft: Draft, supplies: Supplies, tap: string, size: string): void {
  put(draft, 'condenser', 'C', size, [
    ['from', tap],
    ['to', supplies.minus],
  ]);
}

/** A detector tube; gives the end that its plate circuit goes on from. */
export function putDetector(
  draft: Draft,
  supplies: Supplies,
  from: TunedCircuit,
  regenerative: boolean,
): string {
  const { chance } = draft;
  const { family, minus, plus } = supplies;
  const tube = putTube(draft, supplies, chance.one(family.detector));
  if (chance.percent(85)) {
    const condenser = put(draft, 'condenser', 'C', chance.one(['.00025 mfd', '.0003 mfd']), [
      ['from', from.hot],
      ['to', tube.grid],
    ]);
    const leak = chance.percent(25) ? '.5 to 5 meg variable' : '2 meg';
    if (chance.percent(30)) put(draft, 'leak', 'R', leak, [['across', condenser]]);
    else {
      const returns = family.heated
        ? `${tube.name}.cathode`
        : chance.one([plus, `${tube.name}.filament+`, minus]);
      put(draft, 'leak', 'R', leak, [
        ['from', tube.grid],
        ['to', returns],
      ]);
    }
  } else wire(draft, from.hot, tube.grid);
  if (!regenerative || !from.coil?.line.words.startsWith('coil')) {
    if (chance.percent(70)) bypass(draft, supplies, tube.plate, '.001 mfd');
    return tube.plate;
  }
  return feedBack(draft, supplies, tube, from.coil);
}

/** Regeneration: a tickler that turns, a throttle condenser, or a tuned plate. */
function feedBack(
  draft: Draft,
  supplies: Supplies,
  tube: PlacedTube,
  coil: NonNullable<TunedCircuit['coil']>,
): string {
  const { chance } = draft;
  const way = chance.one(['tickler', 'tickler', 'throttle', 'variometer']);
  if (way === 'variometer') {
    const vario = put(
      draft,
      'variometer',
      'VM',
      '50 to 450 uH',
      [['from', tube.plate]],
      'set 50 %',
    );
    bypass(draft, supplies, `${vario}.finish`, '.001 mfd');
    return `${vario}.finish`;
  }
  const [near, far] = addTickler(draft, coil);
  wire(draft, tube.plate, near);
  if (way === 'tickler') {
    if (chance.percent(80)) bypass(draft, supplies, far, '.001 mfd');
    return far;
  }
  const cold = bus(draft, 'TIC');
  wire(draft, far, cold);
  put(draft, 'condenser', 'C', 'variable 15 to 250 mmfd', [
    ['rotor', supplies.minus],
    ['stator', cold],
  ]);
  return `${put(draft, 'choke', 'CH', '85 mH 200 ohms', [['from', cold]])}.finish`;
}

/** A crystal behind a tuned circuit; gives the end that the sound comes from. */
export function putCrystal(draft: Draft, from: TunedCircuit): string {
  const { chance } = draft;
  const tap = from.coil && from.tap !== undefined && chance.percent(50) ? from.tap : from.hot;
  const crystal = put(
    draft,
    'crystal',
    'CR',
    '',
    chance.percent(50) ? [['from', tap]] : [['mineral', tap]],
  );
  return `${crystal}.whisker`;
}
