import type { TunedCircuit } from './couplers.ts';
import { bus, type Draft, inStage, put, putWindings, wire } from './draft.ts';
import { bypass } from './radio.ts';
import type { Supplies } from './supplies.ts';
import { putTube, putTuning } from './tube.ts';

/** First detector, oscillator and intermediate stages; gives the circuit of the second detector. */
export function putSuperhet(draft: Draft, supplies: Supplies, from: TunedCircuit): TunedCircuit {
  const { chance } = draft;
  const { family, minus, plus } = supplies;
  const general = chance.one(family.general);
  const mixer = inStage(draft, 'mixer', 'MIX', () => {
    const tube = putTube(draft, supplies, general);
    put(draft, 'condenser', 'C', '.00025 mfd', [
      ['from', from.hot],
      ['to', tube.grid],
    ]);
    const back = family.heated ? `${tube.name}.cathode` : plus;
    put(draft, 'leak', 'R', '2 meg', [
      ['from', tube.grid],
      ['to', back],
    ]);
    bypass(draft, supplies, tube.plate, '.0005 mfd');
    return tube;
  });
  inStage(draft, 'oscillator', 'OSC', () => {
    const pickup = chance.percent(60);
    const tube = putTube(draft, supplies, general);
    const { name } = putWindings(
      draft,
      'coil',
      '',
      ['form 2 1/2 in'],
      [
        { name: 'grid', words: '44 turns of 26 DCC', joins: [['from', minus]] },
        {
          name: 'plate',
          words: '24 turns of 26 DCC beside grid spaced 1/8 in',
          joins: [
            ['from', tube.plate],
            ['to', supplies.radioTap],
          ],
        },
        ...(pickup
          ? [
              {
                name: 'pickup',
                words: '4 turns of 26 DCC beside plate spaced 1/4 in',
                joins: [['from', minus]] as const,
              },
            ]
          : []),
      ],
    );
    putTuning(draft, `${name}.grid.start`, `${name}.grid.finish`);
    if (chance.percent(40)) {
      put(draft, 'condenser', 'C', '.00025 mfd', [
        ['from', `${name}.grid.finish`],
        ['to', tube.grid],
      ]);
      put(draft, 'leak', 'R', '.1 meg', [
        ['from', tube.grid],
        ['to', minus],
      ]);
    } else wire(draft, `${name}.grid.finish`, tube.grid);
    if (!pickup) {
      const size = 'trimmer 2 to 20 mmfd';
      put(draft, 'condenser', 'C', size, [
        ['from', `${name}.grid.finish`],
        ['to', from.hot],
      ]);
    } else if (family.heated) wire(draft, `${name}.pickup.finish`, `${mixer.name}.filament-`);
    else
      put(draft, 'condenser', 'C', '.5 mfd', [
        ['from', `${name}.pickup.finish`],
        ['to', from.cold],
      ]);
    bypass(draft, supplies, supplies.radioTap, '.5 mfd');
  });
  const returns = chance.percent(50) && !family.heated ? stabilized(draft, supplies) : minus;
  let plate = mixer.plate;
  const stages = 1 + chance.below(3);
  let last: TunedCircuit | undefined;
  for (let stage = 0; stage <= stages; stage++) {
    const tap = stage === 0 ? supplies.detectorTap : supplies.radioTap;
    last = intermediate(draft, plate, tap, returns);
    if (stage === stages) break;
    const { hot } = last;
    const type = family.screen && chance.percent(30) ? family.screen : general;
    plate = inStage(draft, 'intermediate', 'IF', () => {
      const tube = putTube(draft, supplies, type, {
        grid: hot,
        ...(type === family.screen ? { screen: supplies.radioTap } : {}),
      });
      return tube.plate;
    });
  }
  return last ?? from;
}

/** A bus for the grid returns at the arm of a potentiometer across the filaments. */
function stabilized(draft: Draft, { minus, plus }: Supplies): string {
  const returns = bus(draft, 'IFR');
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
    'set 10 %',
  );
  put(draft, 'condenser', 'C', '.5 mfd', [
    ['from', returns],
    ['to', minus],
  ]);
  return returns;
}

function intermediate(draft: Draft, plate: string, tap: string, cold: string): TunedCircuit {
  const { chance } = draft;
  const { name, line } = putWindings(
    draft,
    'transformer',
    'air',
    ['coupling primary with secondary 25 %', 'tuned 45 kc'],
    [
      {
        name: 'primary',
        words: '6 mH 60 ohms',
        joins: [
          ['from', plate],
          ['to', tap],
        ],
      },
      { name: 'secondary', words: '12.5 mH 100 ohms', joins: [['from', cold]] },
    ],
  );
  put(draft, 'condenser', 'C', '.001 mfd', [['across', `${name}.secondary`]]);
  if (chance.percent(40)) {
    put(draft, 'condenser', 'TR', 'trimmer 20 to 100 mmfd', [['across', `${name}.primary`]]);
  }
  return { hot: `${name}.secondary.finish`, cold, coil: { name, line }, tap: undefined };
}
