import { type Draft, type Led, lineOf, nextName, put, putWindings } from './draft.ts';

/** Two-ended kinds with what may stand on their lines. */
const twoEnded: readonly (readonly [kind: string, letter: string, words: readonly string[]])[] = [
  [
    'condenser',
    'C',
    ['.001 mfd', 'variable 14 to 365 mmfd', 'trimmer 2 to 20 mmfd', '1 mfd 400 V'],
  ],
  ['resistor', 'R', ['1000 ohms', '50 kilohms 20 %', '']],
  ['leak', 'RL', ['2 meg', '.5 to 5 meg variable']],
  ['rheostat', 'RH', ['20 ohms', '10 ohms insulated']],
  ['choke', 'CH', ['30 H', 'air 85 mH']],
  ['ballast', 'K', ['5 V .25 A']],
  ['lamp', 'PL', ['6 V .15 A']],
  ['fuse', 'FU', ['.5 A']],
  ['switch', 'S', ['open', 'closed']],
  ['variometer', 'VM', ['50 to 450 uH']],
  ['loop', 'LP', ['180 uH']],
  ['phones', 'PH', ['2000 ohms']],
  ['horn', 'H', ['']],
  ['speaker', 'SP', ['1500 ohms']],
  ['crystal', 'CR', ['']],
];

const tubes = ['01-A', '22', '24-A', '27', '33', '99', '71-A', '5-X'];

/** Parts of every kind, each end joined to anything or to nothing. */
export function putAnything(draft: Draft): void {
  const { chance } = draft;
  const places = ['GND', 'NEG', 'ANT'];
  draft.here.push(
    lineOf('post GND ground', [], '', 'GND'),
    lineOf('post ANT aerial', [], '', 'ANT'),
    lineOf('bus NEG', [], '', 'NEG'),
  );
  if (chance.percent(80)) {
    draft.here.push(
      lineOf('battery A storage', [], '', 'A', [lineOf('tap A-'), lineOf('tap A+ 6 V')]),
    );
    places.push('A-', 'A+');
  }
  if (chance.percent(70)) {
    const kind = chance.one(['battery B dry', 'eliminator B']);
    const taps = ['tap B-', 'tap B+45', 'tap B+90'].map((said) => lineOf(said));
    draft.here.push(lineOf(kind, [], '', 'B', taps));
    places.push('B-', 'B+45', 'B+90');
  }
  const known = places.length;
  for (let count = 1 + chance.below(8); count > 0; count--) {
    const kind = chance.one(['bus', 'post', 'post']);
    const name = nextName(draft, kind === 'bus' ? 'N' : 'X');
    const word = kind === 'post' ? chance.one([' speaker', ' phones', ' loop', ' ground', '']) : '';
    draft.here.push(lineOf(`${kind} ${name}${word}`, [], '', name));
    places.push(name);
  }
  const anywhere = (): string =>
    chance.percent(30) ? chance.one(places.slice(0, known)) : chance.one(places);
  const maybe = (led: string): Led[] => (chance.percent(88) ? [[led, anywhere()]] : []);
  for (let count = 2 + chance.below(16); count > 0; count--) {
    const what = chance.below(24);
    if (what < 13) {
      const [kind, letter, words] = chance.one(twoEnded);
      const name = put(draft, kind, letter, chance.one(words), [...maybe('from'), ...maybe('to')]);
      if (chance.percent(30)) places.push(kind === 'crystal' ? `${name}.mineral` : `${name}.start`);
    } else if (what < 17) {
      const type = chance.one(tubes);
      const name = nextName(draft, 'V');
      const leads = ['grid', 'plate', 'filament-', 'filament+'];
      if (/22|24|33/.test(type)) leads.push('screen');
      if (/27|24/.test(type)) leads.push('cathode');
      draft.here.push(lineOf(`tube ${name} ${type}`, [], '', name));
      for (const lead of leads) {
        if (chance.percent(85)) {
          draft.here.push(
            lineOf('wire', [
              ['', `${name}.${lead}`],
              ['to', anywhere()],
            ]),
          );
        }
      }
    } else if (what < 21) {
      const kind = chance.one(['coil', 'coil', 'transformer'] as const);
      const names = ['a', 'b', 'c', 'd'].slice(0, 1 + chance.below(4));
      const { name } = putWindings(
        draft,
        kind,
        kind === 'coil' ? '' : 'ratio 1 to 3',
        [],
        [
          ...names.map((winding) => ({
            name: winding,
            words: '40 turns',
            joins: [
              ...maybe('from'),
              ...maybe('to'),
              ...(chance.percent(25) ? maybe('tap 10') : []),
              ...(chance.percent(15) ? maybe('centre') : []),
            ],
          })),
        ],
      );
      const end = `${name}.${chance.one(names)}.${chance.one(['start', 'finish'])}`;
      if (chance.percent(30)) places.push(end);
      if (chance.percent(30)) {
        put(draft, 'selector', 'S', '', [
          ['from', anywhere()],
          ['to', end, anywhere()],
        ]);
      }
    } else if (what === 21) {
      const joins = [...maybe('from'), ...maybe('to'), ...maybe('arm')];
      put(draft, 'potentiometer', 'P', '400 ohms', joins);
    } else if (what === 22) {
      const jack = put(draft, 'jack', 'J', '', [...maybe('from'), ...maybe('to')]);
      if (chance.percent(60)) put(draft, 'phones', 'PH', '2000 ohms', [['into', jack]]);
    } else put(draft, 'shield', 'SH', '', maybe('to'));
  }
  for (let count = chance.below(3); count > 0; count--) {
    const ohms = chance.percent(60) ? '.2 ohms' : '';
    draft.here.push(
      lineOf(
        'wire',
        [
          ['', anywhere()],
          ['to', anywhere()],
        ],
        ohms,
      ),
    );
  }
}
