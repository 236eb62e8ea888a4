import {
  bus,
  type Draft,
  type Line,
  put,
  putWindings,
  type WindingDraft,
  windingLine,
  wire,
} from './draft.ts';
import type { Supplies } from './supplies.ts';
import { putTuning } from './tube.ts';

/** A tuned circuit that a grid may be led from. */
export interface TunedCircuit {
  /** The end with the signal on it. */
  readonly hot: string;
  readonly cold: string;
  /** The coil that holds it, where it is one: a tickler may be added. */
  readonly coil: { readonly name: string; readonly line: Line } | undefined;
  /** A tap near the cold end, where there is one. */
  readonly tap: string | undefined;
}

const gauges = ['26 DCC', '24 DCC', '28 DSC', '26 enamel'];

/** Where a grid circuit returns to: earth, the filament line, or a bias with its bypass. */
function coldEnd(draft: Draft, supplies: Supplies, stabilizer: string | undefined): string {
  if (stabilizer) return stabilizer;
  const bias = draft.chance.percent(15) ? supplies.bias(4.5) : undefined;
  return bias ?? draft.chance.one([supplies.earth, supplies.minus, supplies.minus]);
}

/** The stabilizer: a potentiometer across the filament supply whose arm the radio grids go to. */
export function putStabilizer(draft: Draft, supplies: Supplies): string {
  const { plus, minus } = supplies;
  const returns = bus(draft, 'RET');
  put(
    draft,
    'potentiometer',
    'P',
    '400 ohms',
    [
      ['from', minus],
      ['to', plus],
      ['arm', returns],
    ],
    'set 20 %',
  );
  if (draft.chance.percent(80)) {
    put(draft, 'condenser', 'C', '.5 mfd', [
      ['from', returns],
      ['to', minus],
    ]);
  }
  return returns;
}

function tune(draft: Draft, cold: string, hot: string, winding: string): void {
  putTuning(draft, cold, hot);
  if (draft.chance.percent(20)) {
    put(draft, 'condenser', 'TR', 'trimmer 2 to 25 mmfd', [['across', winding]]);
  }
}

/** From the aerial to the first tuned circuit, in one of the ways that sets had. */
export function putEntrance(
  draft: Draft,
  supplies: Supplies,
  stabilizer: string | undefined,
): TunedCircuit {
  const { chance } = draft;
  const way = chance.one(['coupler', 'coupler', 'coupler', 'direct', 'loop', 'variometer']);
  if (way === 'loop') return putLoop(draft, stabilizer ?? supplies.minus);
  draft.here.push({
    part: 'ANT',
    words: 'post ANT aerial',
    joins: [],
    after: chance.percent(50) ? '250 mmfd' : '',
    block: undefined,
  });
  const aerial = throughTheAerial(draft, supplies);
  if (way === 'variometer') {
    const vario = put(
      draft,
      'variometer',
      'VM',
      '50 to 450 uH',
      [['from', supplies.earth]],
      chance.percent(50) ? 'set 40 %' : '',
    );
    const hot = `${vario}.finish`;
    if (chance.percent(60))
      put(draft, 'condenser', 'C', '.0001 mfd', [
        ['from', aerial],
        ['to', hot],
      ]);
    else wire(draft, aerial, hot);
    if (chance.percent(50)) putTuning(draft, supplies.earth, hot);
    return { hot, cold: supplies.earth, coil: undefined, tap: undefined };
  }
  const cold = coldEnd(draft, supplies, stabilizer);
  if (way === 'direct') {
    const { name, line } = putWindings(
      draft,
      'coil',
      '',
      ['form 3 in'],
      [
        {
          name: 'grid',
          words: `54 turns of ${chance.one(gauges)}`,
          joins: [['from', supplies.earth]],
          after: 'taps 8, 16',
        },
      ],
    );
    const hot = `${name}.grid.finish`;
    if (chance.percent(50)) {
      const studs = [`${name}.grid.tap8`, `${name}.grid.tap16`];
      put(
        draft,
        'selector',
        'S',
        '',
        [
          ['from', aerial],
          ['to', ...studs],
        ],
        'set tap8',
      );
    } else
      put(draft, 'condenser', 'C', '.0001 mfd', [
        ['from', aerial],
        ['to', `${name}.grid.tap16`],
      ]);
    tune(draft, `${name}.grid.start`, hot, `${name}.grid`);
    return { hot, cold: supplies.earth, coil: { name, line }, tap: `${name}.grid.tap8` };
  }
  const tapped = chance.percent(40);
  const taps = chance.one(['taps 4, 8', 'taps 3, 6, 9', 'tap 6']);
  const byFinish = chance.percent(50);
  const near: WindingDraft = {
    name: 'aerial',
    words: `12 turns of ${chance.one(gauges)}`,
    joins: [['from', supplies.earth], ...(tapped || !byFinish ? [] : [['to', aerial] as const])],
    after: tapped ? taps : '',
  };
  const grid: WindingDraft = {
    name: 'grid',
    words: `56 turns of ${chance.one(gauges)} beside aerial spaced 1/4 in`,
    joins: [['from', cold]],
  };
  const both = chance.percent(70) ? [near, grid] : [grid, near];
  const { name, line } = putWindings(draft, 'coil', '', ['form 2 3/4 in'], both);
  if (tapped) {
    const numbers = taps.match(/\d+/g) ?? [];
    const studs = [...numbers.map((n) => `${name}.aerial.tap${n}`), `${name}.aerial.finish`];
    const set = chance.percent(70) ? `set tap${chance.one(numbers)}` : '';
    put(
      draft,
      'selector',
      'S',
      '',
      [
        ['from', aerial],
        ['to', ...studs],
      ],
      set,
    );
  } else if (!byFinish) wire(draft, aerial, `${name}.aerial.finish`);
  const hot = `${name}.grid.finish`;
  tune(draft, `${name}.grid.start`, hot, `${name}.grid`);
  return { hot, cold, coil: { name, line }, tap: undefined };
}

/** What may stand in the aerial's lead: a loading coil, a condenser, a trap, a volume control. */
function throughTheAerial(draft: Draft, supplies: Supplies): string {
  const { chance } = draft;
  const what = chance.one(['', '', '', '', 'load', 'condenser', 'trap', 'volume', 'switch']);
  if (what === 'load') {
    return `${put(draft, 'choke', 'CH', 'air 120 uH', [['from', 'ANT']])}.finish`;
  }
  if (what === 'condenser') {
    return `${put(draft, 'condenser', 'C', '.00025 mfd', [['from', 'ANT']])}.finish`;
  }
  if (what === 'volume') {
    const joins = [
      ['from', supplies.earth],
      ['to', 'ANT'],
    ] as const;
    return `${put(draft, 'potentiometer', 'P', '10 kilohms', joins, 'set 80 %')}.arm`;
  }
  if (what === 'switch') {
    // Short aerial or long: the condenser is bridged or left in.
    const condenser = put(draft, 'condenser', 'C', '.0002 mfd', [['from', 'ANT']]);
    put(draft, 'switch', 'S', '', [['across', condenser]], chance.one(['open', 'closed']));
    return `${condenser}.finish`;
  }
  if (what === 'trap') {
    const { name } = putWindings(
      draft,
      'coil',
      '',
      ['form 2 in'],
      [{ name: 'trap', words: '40 turns of 26 DCC', joins: [['from', 'ANT']] }],
    );
    put(draft, 'condenser', 'C', 'variable 14 to 365 mmfd', [['across', `${name}.trap`]]);
    return `${name}.trap.finish`;
  }
  return 'ANT';
}

function putLoop(draft: Draft, cold: string): TunedCircuit {
  const { chance } = draft;
  const posts = chance.percent(50);
  if (posts) {
    for (const name of ['LOOP1', 'LOOP2']) {
      draft.here.push({
        part: name,
        words: `post ${name} loop`,
        joins: [],
        after: '',
        block: undefined,
      });
    }
  }
  const centred = chance.percent(15);
  const size = chance.one(['180 uH 4 ohms', '180 uH', '200 uH 18 turns']);
  const loop = put(draft, 'loop', 'LP', size, [
    ...(posts
      ? ([
          ['from', 'LOOP2'],
          ['to', 'LOOP1'],
        ] as const)
      : []),
    ...(centred ? ([['centre', cold]] as const) : []),
  ]);
  const [start, finish] = posts ? ['LOOP2', 'LOOP1'] : [`${loop}.start`, `${loop}.finish`];
  putTuning(draft, start, finish);
  if (!centred) wire(draft, start, cold);
  return { hot: finish, cold, coil: undefined, tap: undefined };
}

/** From a plate to the next tuned circuit: a coil with a winding in the plate's lead. */
export function putCoupler(
  draft: Draft,
  supplies: Supplies,
  plate: string,
  stabilizer: string | undefined,
  neutralized = false,
): TunedCircuit {
  const { chance } = draft;
  const cold = coldEnd(draft, supplies, stabilizer);
  const byCoil = chance.percent(60);
  const first: WindingDraft = {
    name: 'plate',
    words: `${chance.one([7, 10, 14])} turns of 30 DSC${neutralized ? ' over grid at start' : ''}`,
    joins: [...(byCoil ? [['from', plate] as const] : []), ['to', supplies.radioTap]],
  };
  const second: WindingDraft = {
    name: 'grid',
    words: `56 turns of ${chance.one(gauges)}${neutralized ? '' : ' beside plate spaced 1/4 in'}`,
    joins: [['from', cold]],
    after: neutralized ? 'tap 7' : '',
  };
  const both = chance.percent(60) ? [first, second] : [second, first];
  const { name, line } = putWindings(draft, 'coil', '', ['form 2 3/4 in'], both);
  if (!byCoil) wire(draft, plate, `${name}.plate.start`);
  const hot = `${name}.grid.finish`;
  if (chance.percent(90)) tune(draft, `${name}.grid.start`, hot, `${name}.grid`);
  return { hot, cold, coil: { name, line }, tap: neutralized ? `${name}.grid.tap7` : undefined };
}

/** A plate fed through a choke or a resistance and a condenser to the next, untuned grid. */
export function putUntuned(draft: Draft, supplies: Supplies, plate: string): TunedCircuit {
  const { chance } = draft;
  const feed = [
    ['from', plate],
    ['to', supplies.radioTap],
  ] as const;
  if (chance.percent(50)) put(draft, 'choke', 'CH', '85 mH 200 ohms', feed);
  else put(draft, 'resistor', 'R', '50 kilohms', feed);
  const condenser = put(draft, 'condenser', 'C', '.0005 mfd', [['from', plate]]);
  const hot = `${condenser}.finish`;
  put(draft, 'leak', 'R', chance.one(['1 meg', '.5 to 5 meg']), [
    ['from', hot],
    ['to', supplies.minus],
  ]);
  return { hot, cold: supplies.minus, coil: undefined, tap: undefined };
}

/** A winding that feeds back what a plate gives; gives its two ends. */
export function addTickler(
  draft: Draft,
  coil: { readonly name: string; readonly line: Line },
): readonly [string, string] {
  const { chance } = draft;
  const moves = chance.percent(60);
  coil.line.block?.push(
    windingLine(coil.name, {
      name: 'tickler',
      words: moves
        ? '14 turns of 26 DCC inside grid on form 2 1/4 in set 10 %'
        : '14 turns of 26 DCC beside grid spaced 1/8 in',
      after: chance.percent(20) ? 'reversed' : '',
    }),
  );
  const ends = [`${coil.name}.tickler.start`, `${coil.name}.tickler.finish`] as const;
  return chance.percent(80) ? ends : [ends[1], ends[0]];
}
