import { describe, expect, it } from 'vitest';
import { operatingPoint } from '../src/operating-point.ts';
import { signalGains } from '../src/signal-gains.ts';
import { response } from '../src/small-signal/response.ts';
import { exampleSets } from './reading-set.ts';

const gainsOf = (name: string, stations: readonly number[] = [1e6]) => {
  const circuit = exampleSets.get(name)!;
  return signalGains(circuit, operatingPoint(circuit), stations);
};

/** `V1 to V2.grid`, in order, of one kind. */
const steps = (name: string, use: string) =>
  gainsOf(name)
    .gains.filter((each) => each.use === use)
    .map(({ from, to }) => `${from} to ${to}`);

describe('the way of a signal', () => {
  it('goes from the aerial from grid to grid to the detector', () => {
    expect(steps('five-tube-trf', 'radio')).toEqual([
      'ANT to V1.grid',
      'V1 to V2.grid',
      'V2 to V3.grid',
    ]);
  });

  it('goes on from the detector to the horn', () => {
    expect([...new Set(steps('five-tube-trf', 'audio'))]).toEqual([
      'V3 to V4.grid',
      'V4 to V5.grid',
      'V5 to H1',
    ]);
  });

  it('of a superheterodyne goes on at the intermediate frequency, and ends in its detector', () => {
    expect(steps('superheterodyne', 'intermediate')).toEqual([
      'V1 to V3.grid',
      'V3 to V4.grid',
      'V4 to V5.grid',
    ]);
  });

  it('of a reflex set goes through its tube twice', () => {
    expect(steps('reflex', 'radio')).toEqual(['ANT to V1.grid', 'V1 to CR1']);
    expect([...new Set(steps('reflex', 'audio'))]).toEqual([
      'CR1 to V1.grid',
      'V1 to V2.grid',
      'V2 to H1',
    ]);
  });

  it('of a push-pull stage ends in its loudspeaker from both halves alike', () => {
    const halves = gainsOf('push-pull').gains.filter(
      ({ to, frequency }) => to === 'SP1' && frequency === 1000,
    );
    expect(halves).toHaveLength(2);
    expect(halves[0]!.gain! / halves[1]!.gain!).toBeCloseTo(1, 2);
  });
});

describe('the gain of a stage', () => {
  it('makes up with the others what comes to the detector', () => {
    const circuit = exampleSets.get('five-tube-trf')!;
    const whole = response(circuit, operatingPoint(circuit), { stations: [1e6] });
    const all = gainsOf('five-tube-trf').gains.filter(({ use }) => use === 'radio');
    const product = all.reduce((sofar, { gain }) => sofar * gain!, 1);
    expect(product).toBeCloseTo(whole.stations[0]!.detectorVolts!, 6);
  });

  it('of intermediate stages makes up what the whole amplifier gives', () => {
    const circuit = exampleSets.get('superheterodyne')!;
    const { intermediate } = response(circuit, operatingPoint(circuit), { stations: [1e6] });
    const all = gainsOf('superheterodyne').gains.filter(({ use }) => use === 'intermediate');
    const product = all.reduce((sofar, { gain }) => sofar * gain!, 1);
    expect(product / intermediate!.gain!).toBeCloseTo(1, 3);
  });

  it('of transformer coupling is about the step-up by the amplification factor', () => {
    // 8 of an 01-A by 1 to 3, less what plate resistance and iron take at 1000 cycles.
    const found = gainsOf('five-tube-trf').gains.find(
      ({ from, frequency }) => from === 'V4' && frequency === 1000,
    );
    expect(found!.gain!).toBeGreaterThan(0.8 * 8 * 3);
    expect(found!.gain!).toBeLessThan(1.05 * 8 * 3.5);
  });

  it('is less with coils that lose more', () => {
    const circuit = exampleSets.get('screen-grid')!;
    const with100 = signalGains(circuit, operatingPoint(circuit), [1e6], { quality: 100 });
    const of = (gains: typeof with100) => gains.gains.find(({ from }) => from === 'V1')!.gain!;
    expect(of(with100)).toBeLessThan(of(gainsOf('screen-grid')));
  });

  it('is not known for a set that oscillates', () => {
    const radio = gainsOf('two-tube').gains.filter(({ use }) => use === 'radio');
    expect(radio.map(({ gain }) => gain)).toEqual([undefined]);
  });

  it('names the condensers that do not reach the station', () => {
    const far = gainsOf('five-tube-trf', [400e3]).gains.find(({ from }) => from === 'V1');
    expect(far!.atStop).toContain('C2');
  });

  it('is not told where nothing is known of the way', () => {
    const { gains, isReceiving, lacks } = gainsOf('bare-wiring');
    expect([gains.filter(({ use }) => use === 'radio'), isReceiving]).toEqual([[], false]);
    expect(lacks.length).toBeGreaterThan(0);
  });
});
