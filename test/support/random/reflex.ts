import { putEntrance, type TunedCircuit } from './couplers.ts';
import { bus, type Draft, inStage, put, putWindings } from './draft.ts';
import { putCrystal } from './radio.ts';
import type { Supplies } from './supplies.ts';
import { putTube, putTuning } from './tube.ts';

/** One tube that works at radio and at audio frequency; gives where its sound goes on from. */
export function putReflex(draft: Draft, supplies: Supplies): string {
  const { chance } = draft;
  const { family, minus } = supplies;
  const returns = bus(draft, 'RX');
  const input: TunedCircuit = putEntrance(draft, supplies, returns);
  return inStage(draft, 'radio audio', 'RX', () => {
    put(draft, 'condenser', 'C', '.0005 mfd', [
      ['from', returns],
      ['to', minus],
    ]);
    const tube = putTube(draft, supplies, chance.one(family.general), { grid: input.hot });
    const { name, line } = putWindings(
      draft,
      'coil',
      '',
      ['form 3 in'],
      [
        { name: 'plate', words: '12 turns of 24 DCC', joins: [['from', tube.plate]] },
        {
          name: 'grid',
          words: '45 turns of 24 DCC beside plate spaced 1/8 in',
          joins: [['from', minus]],
          after: 'tap 22',
        },
      ],
    );
    putTuning(draft, `${name}.grid.start`, `${name}.grid.finish`);
    const tuned: TunedCircuit = {
      hot: `${name}.grid.finish`,
      cold: minus,
      coil: { name, line },
      tap: `${name}.grid.tap22`,
    };
    const sound = putCrystal(draft, tuned);
    const transformer = putWindings(
      draft,
      'transformer',
      'ratio 1 to 4',
      [],
      [
        {
          name: 'primary',
          words: '10 H 600 ohms',
          joins: [
            ['from', sound],
            ['to', minus],
          ],
        },
        {
          name: 'secondary',
          words: '5000 ohms',
          joins: [
            ['from', supplies.bias(4.5) ?? minus],
            ['to', returns],
          ],
        },
      ],
    );
    if (chance.percent(70)) {
      put(draft, 'condenser', 'C', '.001 mfd', [['across', `${transformer.name}.primary`]]);
    }
    const rest = `${name}.plate.finish`;
    if (chance.percent(80))
      put(draft, 'condenser', 'C', '.001 mfd', [
        ['from', rest],
        ['to', minus],
      ]);
    return rest;
  });
}
