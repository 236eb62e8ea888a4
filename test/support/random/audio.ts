import { type Draft, type Led, lineOf, nextName, put, putWindings, wire } from './draft.ts';
import { bypass } from './radio.ts';
import type { Supplies } from './supplies.ts';
import { putTube } from './tube.ts';

const sizes = ['14 H 800 ohms', '20 H 900 ohms', '30 H 1000 ohms'];

/** Where an audio grid returns to. */
function grid(draft: Draft, supplies: Supplies, volts: number): string {
  return draft.chance.percent(80) ? (supplies.bias(volts) ?? supplies.minus) : supplies.minus;
}

/** From a plate, or what follows it, through one audio tube to its plate. */
export function putAudioStage(
  draft: Draft,
  supplies: Supplies,
  source: string,
  tap: string,
  last: boolean,
): string {
  const { chance } = draft;
  const { family } = supplies;
  const type = last ? chance.one(family.power) : chance.one(family.general);
  const cold = grid(draft, supplies, type === '71-A' ? 22.5 : 4.5);
  const way = chance.one(['transformer', 'transformer', 'transformer', 'resistance', 'choke']);
  const tube = putTube(draft, supplies, type);
  if (type === '33') {
    tube.line.block?.push(lineOf('', [['screen', supplies.powerTap]]));
  }
  if (way !== 'transformer') {
    const feed: Led[] = [
      ['from', tap],
      ['to', source],
    ];
    if (way === 'resistance') put(draft, 'resistor', 'R', '100 kilohms', feed);
    else put(draft, 'choke', 'CH', '100 H 1500 ohms', feed);
    put(draft, 'condenser', 'C', '.01 mfd', [
      ['from', source],
      ['to', tube.grid],
    ]);
    if (chance.percent(25)) {
      put(draft, 'potentiometer', 'P', '500 kilohms', [
        ['from', cold],
        ['to', tube.grid],
      ]);
    } else
      put(draft, 'leak', 'R', '.5 meg', [
        ['from', tube.grid],
        ['to', cold],
      ]);
    return tube.plate;
  }
  const jack = chance.percent(15);
  const stamped = chance.percent(15);
  const transformer = putWindings(
    draft,
    'transformer',
    `ratio 1 to ${chance.one(['2', '3', '3.5'])}`,
    [],
    [
      {
        name: 'primary',
        words: chance.one(sizes),
        joins:
          jack || stamped
            ? []
            : [
                ['from', source],
                ['to', tap],
              ],
      },
      { name: 'secondary', words: '5000 ohms', joins: [['from', cold]] },
    ],
  );
  const primary = `${transformer.name}.primary`;
  const hot = `${transformer.name}.secondary.finish`;
  if (jack) {
    put(draft, 'jack', 'J', '', [
      ['from', source],
      ['to', tap],
      ['through', primary],
    ]);
  } else if (stamped) {
    wire(draft, source, `${transformer.name}.P`);
    wire(draft, tap, `${transformer.name}.B`);
  }
  if (chance.percent(15)) {
    const joins: Led[] = [
      ['across', `${transformer.name}.secondary`],
      ['arm', tube.grid],
    ];
    put(draft, 'potentiometer', 'P', '500 kilohms', joins, 'set 60 %');
  } else {
    wire(draft, hot, tube.grid);
    if (chance.percent(20)) {
      put(draft, 'resistor', 'R', '.25 meg', [['across', `${transformer.name}.secondary`]]);
    }
  }
  if (chance.percent(15)) {
    put(draft, 'condenser', 'C', '.0005 mfd', [['across', `${transformer.name}.primary`]]);
  }
  return tube.plate;
}

/** Two tubes that share the work, between two centre-tapped transformers. */
export function putPushPull(draft: Draft, supplies: Supplies, source: string): void {
  const { chance } = draft;
  const type = chance.one(supplies.family.power.filter((name) => name !== '33'));
  const cold = grid(draft, supplies, type === '71-A' ? 40.5 : 9);
  const input = putWindings(
    draft,
    'transformer',
    'ratio 1 to 3',
    [],
    [
      {
        name: 'primary',
        words: chance.one(sizes),
        joins: [
          ['from', source],
          ['to', supplies.audioTap],
        ],
      },
      { name: 'secondary', words: '9000 ohms', joins: [['centre', cold]] },
    ],
  );
  const pair = [putTube(draft, supplies, type), putTube(draft, supplies, type)] as const;
  wire(draft, `${input.name}.secondary.start`, pair[0].grid);
  wire(draft, `${input.name}.secondary.finish`, pair[1].grid);
  const centred: Led[] = [
    ['centre', supplies.powerTap],
    ['from', pair[0].plate],
    ['to', pair[1].plate],
  ];
  if (chance.percent(65)) {
    const [high, low] = putPosts(draft, 'speaker');
    putWindings(
      draft,
      'transformer',
      'ratio 1 to 1',
      [],
      [
        { name: 'primary', words: '24 H 500 ohms', joins: centred },
        {
          name: 'secondary',
          words: '600 ohms',
          joins: [
            ['from', high],
            ['to', low],
          ],
        },
      ],
    );
    put(draft, 'speaker', 'SP', '2000 ohms', [
      ['from', high],
      ['to', low],
    ]);
    return;
  }
  const choke = put(draft, 'choke', 'CH', '30 H 300 ohms', centred);
  put(draft, 'horn', 'H', '2000 ohms', [['across', choke]]);
}

function putPosts(draft: Draft, word: 'speaker' | 'phones'): readonly [string, string] {
  const letters = word === 'speaker' ? 'LS' : 'TEL';
  const names = [nextName(draft, letters), nextName(draft, letters)] as const;
  for (const name of names) draft.here.push(lineOf(`post ${name} ${word}`, [], '', name));
  return names;
}

/** What turns the last plate's current to sound. */
export function putOutput(draft: Draft, supplies: Supplies, plate: string, tap: string): void {
  const { chance } = draft;
  const [kind, letter] = chance.one([
    ['phones', 'PH'],
    ['horn', 'H'],
    ['speaker', 'SP'],
  ] as const);
  const way = chance.one(['direct', 'posts', 'posts', 'jack', 'choke', 'transformer']);
  if (way === 'direct')
    put(draft, kind, letter, '2000 ohms', [
      ['from', plate],
      ['to', tap],
    ]);
  else if (way === 'posts') {
    const [high, low] = putPosts(draft, kind === 'phones' ? 'phones' : 'speaker');
    wire(draft, plate, high);
    wire(draft, low, tap);
    if (chance.percent(85))
      put(draft, kind, letter, '2000 ohms', [
        ['from', high],
        ['to', low],
      ]);
    if (chance.percent(30))
      put(draft, 'condenser', 'C', '.002 mfd', [
        ['from', high],
        ['to', low],
      ]);
  } else if (way === 'jack') {
    const jack = put(draft, 'jack', 'J', '', [
      ['from', plate],
      ['to', tap],
    ]);
    put(draft, kind, letter, '2000 ohms', [['into', jack]]);
  } else if (way === 'choke') {
    put(draft, 'choke', 'CH', '30 H 300 ohms', [
      ['from', plate],
      ['to', tap],
    ]);
    const [high, low] = putPosts(draft, 'speaker');
    put(draft, 'condenser', 'C', '2 mfd 400 V', [
      ['from', plate],
      ['to', high],
    ]);
    wire(draft, low, supplies.minus);
    put(draft, kind, letter, '2000 ohms', [
      ['from', high],
      ['to', low],
    ]);
  } else {
    const [high, low] = putPosts(draft, 'speaker');
    putWindings(
      draft,
      'transformer',
      'ratio 1 to 1',
      [],
      [
        {
          name: 'primary',
          words: '24 H 500 ohms',
          joins: [
            ['from', plate],
            ['to', tap],
          ],
        },
        {
          name: 'secondary',
          words: '600 ohms',
          joins: [
            ['from', high],
            ['to', low],
          ],
        },
      ],
    );
    put(draft, kind, letter, '2000 ohms', [
      ['from', high],
      ['to', low],
    ]);
  }
  if (chance.percent(25)) bypass(draft, supplies, tap, '1 mfd 400 V');
}

/** Phones straight behind a crystal. */
export function putCrystalPhones(draft: Draft, sound: string, cold: string): void {
  const { chance } = draft;
  if (chance.percent(60)) {
    const [high, low] = putPosts(draft, 'phones');
    wire(draft, sound, high);
    wire(draft, low, cold);
    put(draft, 'phones', 'PH', '2000 ohms', [
      ['from', high],
      ['to', low],
    ]);
    put(draft, 'condenser', 'C', '.001 mfd', [
      ['from', high],
      ['to', low],
    ]);
    return;
  }
  const phones = put(draft, 'phones', 'PH', '2000 ohms', [
    ['from', sound],
    ['to', cold],
  ]);
  if (chance.percent(70)) put(draft, 'condenser', 'C', '.001 mfd', [['across', phones]]);
}
