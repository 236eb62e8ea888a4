import { bus, type Draft, lineOf, put, wire } from './draft.ts';

/** Tubes that go together on one filament supply. */
export interface TubeFamily {
  readonly filamentVolts: number;
  readonly general: readonly string[];
  readonly detector: readonly string[];
  readonly power: readonly string[];
  readonly screen: string | undefined;
  readonly heated: boolean;
}

export const families: readonly TubeFamily[] = [
  {
    filamentVolts: 6,
    general: ['01-A'],
    detector: ['01-A', '00-A', '40'],
    power: ['01-A', '12-A', '71-A'],
    screen: '22',
    heated: false,
  },
  {
    filamentVolts: 4.5,
    general: ['99'],
    detector: ['99'],
    power: ['99', '20'],
    screen: undefined,
    heated: false,
  },
  {
    filamentVolts: 1.5,
    general: ['11', '12'],
    detector: ['12'],
    power: ['12'],
    screen: undefined,
    heated: false,
  },
  {
    filamentVolts: 3,
    general: ['30'],
    detector: ['30'],
    power: ['30', '31', '33'],
    screen: '32',
    heated: false,
  },
  {
    filamentVolts: 2.5,
    general: ['27'],
    detector: ['27'],
    power: ['27'],
    screen: '24-A',
    heated: true,
  },
];

/** The junctions that every stage draws from. */
export interface Supplies {
  readonly family: TubeFamily;
  /** The cold side of the filaments, behind the battery switch. */
  readonly minus: string;
  readonly plus: string;
  readonly earth: string;
  readonly detectorTap: string;
  readonly radioTap: string;
  readonly audioTap: string;
  readonly powerTap: string;
  /** A tap so many volts below the filaments, where there is a C battery. */
  readonly bias: (volts: number) => string | undefined;
}

/** Posts, batteries, switch, fuse, pilot lamp and what joins them. */
export function putSupplies(draft: Draft, family: TubeFamily): Supplies {
  const { chance } = draft;
  const filaments = family.filamentVolts;
  draft.here.push(
    lineOf(`battery A ${filaments === 6 || family.heated ? 'storage' : 'dry'}`, [], '', 'A', [
      lineOf('tap A- 0 V'),
      lineOf(`tap A+ ${filaments} V`),
      ...(chance.percent(50) ? [lineOf('capacity 60 Ah')] : []),
    ]),
  );
  const power = family.general[0] === '99' ? 90 : chance.one([90, 135, 180]);
  const few = chance.percent(25);
  const volts = few ? [45, power] : [22.5, 45, 67.5, 90, 135, 180].filter((v) => v <= power);
  const tapName = (each: number): string => `B+${Math.floor(each)}`;
  const eliminator = family.heated || chance.percent(20);
  draft.here.push(
    lineOf(`${eliminator ? 'eliminator B' : 'battery B dry'}`, [], '', 'B', [
      lineOf('tap B-'),
      ...volts.map((each) =>
        lineOf(
          eliminator
            ? `tap ${tapName(each)} ${each} V at 5 mA resistance ${each === power ? 1 : 8} kilohms`
            : `tap ${tapName(each)} ${each} V`,
        ),
      ),
    ]),
  );
  const biasVolts = chance.percent(family.heated ? 0 : 70) ? [4.5, 9, 22.5, 40.5] : [];
  if (biasVolts.length > 0) {
    draft.here.push(
      lineOf('battery C dry', [], '', 'C', [
        lineOf('tap C+'),
        ...biasVolts.map((each) => lineOf(`tap C-${each}`)),
      ]),
    );
  }
  draft.here.push(lineOf('post GND ground', [], '', 'GND'));
  const hasBus = chance.percent(80);
  if (hasBus) draft.here.push(lineOf('bus NEG "negative filament bus"', [], '', 'NEG'));
  const minus = hasBus ? 'NEG' : 'A-';
  let plus = 'A+';
  let below = 'A-';
  if (chance.percent(25)) {
    // The fuse stands in the lead that both batteries share with the set.
    const fuse = put(draft, 'fuse', 'FU', '.1 A', [['from', 'B-']]);
    wire(draft, `${fuse}.finish`, below);
  } else wire(draft, 'B-', below);
  if (biasVolts.length > 0) wire(draft, 'C+', below);
  wire(draft, 'GND', chance.percent(70) ? 'A-' : minus);
  if (hasBus) {
    const way = family.heated ? 'wire' : chance.one(['switch', 'switch', 'plus', 'lead']);
    if (way === 'switch')
      put(
        draft,
        'switch',
        'S',
        '',
        [
          ['from', below],
          ['to', 'NEG'],
        ],
        'closed',
      );
    else if (way === 'lead') {
      const closer = put(draft, 'switch', 'S', '', [['from', below]], 'closed');
      draft.here.push(
        lineOf(
          'wire',
          [
            ['', `${closer}.finish`],
            ['to', 'NEG'],
          ],
          '.1 ohms',
        ),
      );
    } else {
      wire(draft, below, 'NEG');
      if (way === 'plus') {
        const line = bus(draft, 'POS');
        put(
          draft,
          'switch',
          'S',
          '',
          [
            ['from', 'A+'],
            ['to', line],
          ],
          'closed',
        );
        plus = line;
      }
    }
  }
  below = minus;
  if (chance.percent(20)) {
    const size = `${filaments === 6 ? 6 : filaments} V .15 A`;
    put(draft, 'lamp', 'PL', size, [
      ['from', plus],
      ['to', minus],
    ]);
  }
  const pick = (wanted: number): string =>
    tapName(volts.reduce((a, b) => (Math.abs(b - wanted) < Math.abs(a - wanted) ? b : a)));
  const biased = draft.lines.some(({ part }) => part === 'C');
  return {
    family,
    minus,
    plus,
    earth: chance.percent(60) ? 'GND' : minus,
    detectorTap: pick(chance.one([22.5, 45])),
    radioTap: pick(chance.one([67.5, 90])),
    audioTap: pick(90),
    powerTap: tapName(power),
    bias: (wanted) =>
      biased
        ? `C-${biasVolts.reduce((a, b) => (Math.abs(b - wanted) < Math.abs(a - wanted) ? b : a))}`
        : undefined,
  };
}
