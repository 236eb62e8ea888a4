import { describe, expect, it } from 'vitest';
import { pushPullInStep as check } from '../../src/checks/push-pull-in-step.ts';
import { edited } from '../edited.ts';
import { findingsOf, told } from '../support.ts';
import { afterFix, heard } from '../trying.ts';

const sound = check.passes;
const first = 'winding first 3000 ohms from C-16.5 to V2.grid';
const second = 'winding second 3000 ohms from V3.grid to C-16.5';
const onOneWinding = (winding: string): string =>
  edited(sound, [`      ${first}\n      ${second}`, `      ${winding}`]);

describe('push-pull tubes in step', () => {
  it('where two windings drive both grids by their finish', () => {
    const findings = findingsOf(check, check.fails);
    expect(findings.map(({ severity }) => severity)).toEqual(['error']);
    expect(findings[0]?.message).toBe(
      'The grids of V3 and V2 go up together: T1.second and T1.first drive them in the same sense, while their plates pull at opposite ends.',
    );
    expect(findings[0]?.cure).toBe('Exchange the two ends of T1.first.');
    expect(findings[0]?.parts).toEqual(['V3', 'V2', 'T1.first']);
  });

  it('and right once the ends of one are exchanged, which is the fix', () => {
    const mended = afterFix(check, check.fails);
    expect(mended).toContain('winding first 3000 ohms from V2.grid to C-16.5');
    expect(heard(check, mended)).toEqual([]);
  });

  it('where one winding is exchanged and reversed as well', () => {
    expect(heard(check, edited(sound, [second, `${second} reversed`]))).toHaveLength(1);
  });

  it('where both grids are at the same end of one winding', () => {
    const text = onOneWinding(
      'winding whole 6000 ohms from C-16.5 to V2.grid\n    }\n    wire V2.grid to V3.grid\n    coil L9 {\n      winding only 20 uH',
    );
    const findings = findingsOf(check, text);
    expect(told(text, findings)).toEqual([
      'push-pull-in-step error @ winding whole 6000 ohms from C-16.5 to V2.grid',
    ]);
    expect(findings[0]?.message).toBe(
      'The grids of V3 and V2 are on the same side of T1.whole, while their plates pull at opposite ends.',
    );
  });

  it('behind grid stoppers as without them', () => {
    const text = edited(
      check.fails,
      [first, 'winding first 3000 ohms from C-16.5 to R8.start'],
      ['    tube V2', '    resistor R8 10 kilohms to V2.grid\n    tube V2'],
    );
    expect(heard(check, text)).toHaveLength(1);
  });
});

describe('push-pull tubes are right, or not known', () => {
  it('at the two ends of one tapped winding', () => {
    const text = onOneWinding('winding whole 6000 ohms centre to C-16.5 from V2.grid to V3.grid');
    expect(heard(check, text)).toEqual([]);
  });

  it('with one winding `reversed`', () => {
    const text = edited(check.fails, [
      'winding second 3000 ohms from C-16.5 to V3.grid',
      'winding second 3000 ohms reversed from C-16.5 to V3.grid',
    ]);
    expect(heard(check, text)).toEqual([]);
  });

  it('driven by two transformers, whose sense nobody has told', () => {
    const text = edited(check.fails, [
      '      winding second',
      '    }\n    transformer T3 {\n      winding primary 800 ohms from V1.plate to B+45\n      winding second',
    ]);
    expect(heard(check, text)).toEqual([]);
  });

  it('with their plates side by side: they want their grids in step', () => {
    const text = edited(
      check.fails,
      ['centre to B+90 from V2.plate to V3.plate', 'from V2.plate to B+90'],
      ['    speaker SP1', '    wire V2.plate to V3.plate\n    speaker SP1'],
    );
    expect(heard(check, text)).toEqual([]);
  });
});
