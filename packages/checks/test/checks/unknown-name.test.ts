import { describe, expect, it } from 'vitest';
import { unknownName } from '../../src/checks/unknown-name.ts';
import { readingExample } from '../../src/examples/reading-example.ts';
import { findingsOf, told } from '../support.ts';
import { afterFix, heard } from '../trying.ts';

const check = unknownName;

describe('unknown-name', () => {
  it('finds the fault of its own example, and nothing in the one put right', () => {
    expect(told(check.fails, findingsOf(check, check.fails))).toEqual([
      'unknown-name error @ B+54',
    ]);
    expect(findingsOf(check, check.passes)).toEqual([]);
  });

  it('the first fix cures it', () => {
    expect(findingsOf(check, afterFix(check, check.fails))).toEqual([]);
  });

  it('says which name is meant nothing, and the nearest that are known', () => {
    const [found] = findingsOf(check, check.fails);
    expect(found?.message).toBe('Nothing in this set is called "B+54".');
    expect(found?.cure).toBe('Did you mean B+45?');
  });

  it('says which ends a part has, where the part is known and the end is not', () => {
    const text = readingExample(['from V1.grid to', 'from V1.gird to']);
    const [found] = findingsOf(check, text);
    expect(found?.message).toBe('V1 has no end or winding called "gird".');
    expect(found?.parts).toEqual(['V1']);
    expect(afterFix(check, text)).toContain('from V1.grid to');
  });

  it.each([
    [
      'a name used above its line',
      readingExample(
        ['wire B- to A- to GND', 'wire B- to A- to GND to LATE'],
        ['detector stage', 'post LATE ground\n  detector stage'],
      ),
    ],
    ['names of another receiver of the file', readingExample() + readingExample()],
    [
      'a post with the name of a tap',
      readingExample(['post GND ground', 'post GND ground\n  post B+45']),
    ],
    [
      'letters stamped on a transformer and a socket',
      readingExample([
        'phones PH1 2000 ohms from V1.plate to B+45',
        'transformer T1 {\n      winding primary\n      winding secondary\n    }\n    wire V1.P to T1.P\n    wire T1.B to B+45\n    wire T1.F to V1.F-',
      ]),
    ],
  ])('is silent: %s', (_, text) => {
    expect(heard(check, text)).toEqual([]);
    expect(findingsOf(check, text)).toEqual([]);
  });
});
