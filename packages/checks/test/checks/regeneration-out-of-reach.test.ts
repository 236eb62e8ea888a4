import { describe, expect, test } from 'vitest';
import { regenerationOutOfReach as check } from '../../src/checks/regeneration-out-of-reach.ts';
import { regenerativeExample } from '../../src/examples/regenerative-example.ts';
import { edited } from '../edited.ts';
import { circuitOf, findingsOf, told } from '../support.ts';
import { heard } from '../trying.ts';

/** A detector whose throttle condenser has this range, behind a radio choke. */
const throttled = (range: string, ticklerTurns = 16): string =>
  regenerativeExample({
    ticklerTurns,
    behind: `choke CH1 85 mH 200 ohms from TIC
    condenser C3 variable ${range} rotor to NEG stator to TIC
    phones PH1 2000 ohms from CH1.finish to B+45`,
  });

/** The only finding of a text that is read without an error. */
function only(text: string) {
  const { remarks } = circuitOf(text);
  expect(remarks.filter(({ severity }) => severity === 'error')).toEqual([]);
  const found = findingsOf(check, text);
  expect(found).toHaveLength(1);
  return found[0]!;
}

describe('a detector that cannot be brought to oscillate', () => {
  test('is one with two turns of tickler', () => {
    const { message, parts } = only(check.fails);
    expect(told(check.fails, findingsOf(check, check.fails))).toEqual([
      'regeneration-out-of-reach warning @ winding tickler 2 turns of 30 DSC beside grid spaced 1/8 in from V1.plate to TIC',
    ]);
    expect(message).toBe('L1.tickler is too weak: V1 does not oscillate anywhere in the band.');
    expect(parts).toEqual(['L1.tickler', 'V1']);
  });

  test('is put right by the turns that the finding asks for', () => {
    const turns = /about (\d+) turns where it has 2/.exec(only(check.fails).cure)?.[1];
    expect(Number(turns)).toBeGreaterThan(2);
    expect(heard(check, regenerativeExample({ ticklerTurns: Number(turns) }))).toEqual([]);
  });

  test('may do so in a part of its band alone', () => {
    expect(only(regenerativeExample({ ticklerTurns: 3 })).message).toMatch(/near 570 kc/);
  });

  test('is one with a tickler that turns and is small', () => {
    const text = regenerativeExample({
      ticklerTurns: 2,
      tickler: 'set 50 % from V1.plate to TIC',
    });
    expect(only(text).message).toMatch(/^However L1.tickler is turned, V1 does not oscillate/);
  });

  test('is one with next to no volts on its plate', () => {
    const text = edited(
      regenerativeExample({ ticklerTurns: 4 }),
      ['tap B+45 45 V', 'tap B+4 4.5 V'],
      ['to B+45', 'to B+4'],
    );
    expect(only(text).severity).toBe('warning');
  });
});

describe('a detector that cannot be kept from oscillating', () => {
  test('is one whose throttle passes too much even with its plates out', () => {
    const { message, parts } = only(throttled('200 to 350 mmfd', 30));
    expect(message).toMatch(/^V1 oscillates near 570 kc.* even with C3 all out\.$/);
    expect(parts).toEqual(['L1.tickler', 'V1', 'C3']);
  });
});

describe('it keeps silent about', () => {
  const silent = (text: string) => expect(heard(check, text)).toEqual([]);

  test('a tickler of usual size', () => silent(check.passes));

  test('a throttle condenser that governs from quiet to loud', () =>
    silent(throttled('5 to 250 mmfd')));

  test('a throttle beside phones with no choke between: their own capacity is not told', () =>
    silent(
      regenerativeExample({
        ticklerTurns: 30,
        behind: `condenser C3 variable 200 to 350 mmfd rotor to NEG stator to TIC
    phones PH1 2000 ohms from TIC to B+45`,
      }),
    ));

  test('a fixed tickler that always oscillates: its rheostat keeps it back', () =>
    silent(regenerativeExample({ ticklerTurns: 30 })));

  test('what a tube or coupling better by a quarter would put right', () =>
    silent(regenerativeExample({ ticklerTurns: 4 })));

  test('a tickler of unknown make', () => silent(edited(check.fails, ['form 2 3/4 in', ''])));

  test('a tube without published points', () =>
    silent(edited(check.fails, ['V1 01-A', 'V1 UNKNOWN']).replace('tube V1 UNKNOWN', 'tube V1')));

  test('a tickler the wrong way round, which is told of by itself', () =>
    silent(regenerativeExample({ ticklerTurns: 2, tickler: 'from TIC to V1.plate' })));

  test('a tickler that is passed by', () =>
    silent(
      regenerativeExample({
        ticklerTurns: 2,
        atPlate: 'condenser C9 .001 mfd from V1.plate to NEG',
      }),
    ));

  test('a floating grid', () =>
    silent(edited(check.fails, ['    leak R1 2 meg from V1.grid to A+\n', ''])));

  test('an oscillator', () => silent(edited(check.fails, ['detector stage', 'oscillator stage'])));

  test('a part of the band that its circuit does not reach', () => {
    // Half of the usual capacity: the long waves are out of reach, where three turns are too few.
    const text = regenerativeExample({ ticklerTurns: 3 });
    const { message } = only(edited(text, ['14 to 365 mmfd', '14 to 150 mmfd']));
    expect(message).not.toContain('570 kc');
  });
});

describe('it is only information', () => {
  test('where the aerial alone takes the oscillation away', () => {
    const text = edited(regenerativeExample({ ticklerTurns: 8 }), [
      'aerial 10 turns',
      'aerial 24 turns',
    ]);
    const { severity, message, why } = only(text);
    expect(severity).toBe('information');
    expect(message).toMatch(/^With the aerial on ANT V1 does not oscillate near/);
    expect(why).toContain('near its own wave');
  });

  test('where another position of a switch cures it', () => {
    const text = edited(check.fails, ['tickler 2 turns', 'tickler 16 turns']);
    const switched = edited(text, [
      'phones PH1',
      'switch S9 from V1.plate to TIC closed\n    phones PH1',
    ]);
    const { severity, cure } = only(switched);
    expect(severity).toBe('information');
    expect(cure).toContain('S9 open');
  });
});
