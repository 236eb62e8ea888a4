import type { Circuit } from '@setwright/circuit';
import { describe, expect, it } from 'vitest';
import { effectOfFault } from '../src/effects/effect-of.ts';
import { soundSet } from '../src/effects/sound-set.ts';
import { clickOf } from '../src/effects/symptoms.ts';
import { faultsOf } from '../src/faults/faults-of.ts';
import { type FaultEffect, type FaultTable, faultTable } from '../src/index.ts';
import { exampleSet, exampleText, setOf } from './example-set.ts';

function effectOn(circuit: Circuit, id: string): FaultEffect & Pick<FaultTable, 'chart'> {
  const sound = soundSet(circuit);
  const fault = faultsOf(circuit).find((each) => each.id === id);
  if (!fault) throw new Error(`no fault ${id}`);
  return { ...effectOfFault(sound, fault), chart: sound.chart };
}

/** What a reading shows before and with a fault. */
function shown({ chart, readings }: ReturnType<typeof effectOn>, at: string, to?: string) {
  const index = chart.readings.findIndex(
    (each) =>
      each.at === at &&
      each.quantity === 'voltage' &&
      each.across === undefined &&
      (to === undefined || each.to === to),
  );
  return {
    before: chart.readings[index]?.expected?.value ?? Number.NaN,
    now: readings[index]?.value ?? Number.NaN,
  };
}

// Common practice: a bypass carries no direct current, and a tired battery is no way home for the
// radio current.
describe('an open bypass of the plate supply', () => {
  const at = (ohms: number) =>
    effectOn(
      setOf(exampleText('five-tube-trf').replace('resistance 30 ohms', `resistance ${ohms} ohms`)),
      'open C5',
    );
  const fresh = at(30);

  it('leaves full B at both plates', () => {
    for (const plate of ['V1.plate', 'V2.plate']) {
      const { before, now } = shown(fresh, plate);
      expect(now).toBeCloseTo(before, 6);
    }
  });

  it('is shown by no reading at all, and that is said with what goes by the battery', () => {
    expect(fresh.seenBy).toEqual([]);
    expect(fresh.words).toContain('All volts stay as they were');
    expect(fresh.words).toContain('B and its 30 ohms');
  });

  it('takes the more of the signal the higher the resistance of the supply', () => {
    const left = [30, 100, 300, 1000, 3000].map((ohms) => at(ohms).radio ?? Number.NaN);
    for (const [index, share] of left.slice(1).entries())
      expect(share).toBeLessThan(left[index] ?? 0);
    expect(left[0]).toBeGreaterThan(0.9);
    expect(left.at(-1)).toBeLessThan(0.2);
  });

  it('makes a neutralized set squeal', () =>
    expect(effectOn(exampleSet('neutralized-five'), 'open C6').heard).toContain(
      'squeals all over',
    ));

  it('makes a set howl once the battery has thousands of ohms', () =>
    expect(at(3000).squeals).toBe('audio'));
});

// Common practice.
describe('an open primary of an audio transformer', () => {
  const effect = effectOn(exampleSet('five-tube-trf'), 'open T1.primary');

  it('takes the plate voltage away', () => {
    const { before, now } = shown(effect, 'V3.plate');
    expect(before).toBeGreaterThan(40);
    expect(Math.abs(now)).toBeLessThan(0.1);
  });

  it('silences the set, but for a click on tapping the tube behind it', () => {
    expect(effect.heard).toContain('silent');
    expect(clickOf(effect.clicks.get('V3') ?? 0)).toBe('silent');
    expect(clickOf(effect.clicks.get('V4') ?? -99)).toBe('heard');
  });
});

// Common practice.
describe('a leaky coupling condenser', () => {
  const circuit = exampleSet('resistance-coupled');

  it('drives the next grid less negative, and the lower its ohms the more', () => {
    const grid = (ohms: string) =>
      shown(
        effectOn(
          setOf(
            exampleText('resistance-coupled').replace(
              'condenser C7 ',
              `resistor LEAK ${ohms} from V3.plate to V4.grid\n    condenser C7 `,
            ),
          ),
          'open ANT',
        ),
        'V4.grid',
      ).before;
    const sound = shown(effectOn(circuit, 'open ANT'), 'V4.grid').before;
    expect(grid('20 megohms')).toBeGreaterThan(sound);
    expect(grid('1 megohm')).toBeGreaterThan(grid('20 megohms'));
  });

  it('of 20 megohms already puts a grid with a leak of one megohm above zero', () => {
    const { before, now } = shown(effectOn(circuit, 'leaky C6 20 megohms'), 'V3.grid');
    expect(before).toBeLessThan(-0.5);
    expect(now).toBeGreaterThan(0);
  });
});

describe('what a fault may cost', () => {
  const { effects } = faultTable(exampleSet('five-tube-trf'));
  const dangersOf = (id: string) =>
    effects.find(({ fault }) => fault.id === id)?.dangers.join('; ');

  // Common practice: fine wire on iron does not stand two watts.
  it('a shorted detector bypass burns the primary of the transformer', () =>
    expect(dangersOf('short C6')).toMatch(/T1\.primary burns: 2\.\d+ W/));

  // Common practice.
  it('a grid that touches its plate burns the losser', () =>
    expect(dangersOf('join V1.grid to V1.plate')).toMatch(/R1 burns/));

  it('a shorted radio bypass shorts B', () =>
    expect(dangersOf('short C5')).toMatch(/B is shorted/));

  it('a rheostat without resistance over-runs its tubes', () =>
    expect(dangersOf('short RH3')).toMatch(/filament of V4 is over-run: 5\.9/));

  it('a tube with its filament open over-runs nobody in a set with resistance to spare', () =>
    expect(dangersOf('open V1')).toBe(''));
});
