import { describe, expect, it } from 'vitest';
import { biasOutOfStep as check } from '../../src/checks/bias-out-of-step.ts';
import { tubeOverCurrent } from '../../src/checks/tube-over-current.ts';
import { checkCircuit } from '../../src/run.ts';
import { saidOf, silent } from '../at-work.ts';
import { circuitOf, findingsOf, told } from '../support.ts';
import { afterFix } from '../trying.ts';

const withPowerTap = check.fails.replace('tap C-9 -9 V', 'tap C-9 -9 V\n    tap C-22 -22.5 V');

describe('a power tube on the bias of the tube before it', () => {
  it('is told with what it draws and what bias it wants on its tap', () => {
    expect(told(check.fails, findingsOf(check, check.fails))).toEqual([
      'bias-out-of-step warning @ tube V3 71-A',
    ]);
    const [found] = findingsOf(check, check.fails);
    expect(found?.message).toMatch(
      /^V3 has -4\.5 V of bias and draws about \d\d mA from B\+135, \d\.?\d? times the \d\d mA of a 71-A at its published bias, which is about -2\d/,
    );
    expect(found?.cure).toMatch(
      /^Lead the grid return of V3 to a C tap of about -2\d.* V; C has none\.$/,
    );
    expect(found?.parts).toEqual(['V3']);
  });

  it('is mended by the tap that fits, where the battery has it', () => {
    const [found] = findingsOf(check, withPowerTap);
    expect(found?.cure).toBe('Lead the grid return of V3 to C-22.');
    const mended = afterFix(check, withPowerTap);
    expect(mended).toContain('from C-22 to V3.grid');
    expect(silent(check, mended)).toEqual([]);
  });

  it('speaks before tube-over-current, of the same tube', () => {
    const text = check.fails.replace('from C-4.5 to V3.grid', 'from A- to V3.grid');
    const all = checkCircuit(circuitOf(text), [check, tubeOverCurrent]).findings;
    expect(all.map((finding) => finding.check)).toEqual(['bias-out-of-step']);
  });

  it('is told on 90 V as well, where the horn takes much of it', () => {
    const text = check.fails.replace('from V3.plate to B+135', 'from V3.plate to B+90');
    expect(saidOf(check, text)[0]).toMatch(/^warning: V3 has -4\.5 V of bias/);
  });

  it('may have far too much bias', () => {
    const text = check.passes.replace('tube V3 71-A', 'tube V3 12-A');
    expect(saidOf(check, text)[0]).toMatch(/^warning: V3 has -27 V of bias/);
    expect(findingsOf(check, text)[0]?.why).toContain('shut off');
  });

  it('is information before the last stage', () => {
    const text = check.passes.replace('from C-4.5', 'from C-27');
    expect(findingsOf(check, text).map(({ severity }) => severity)).toEqual(['information']);
  });
});

describe('a bias that is in step', () => {
  it('is the published one', () => {
    expect(silent(check, check.passes)).toEqual([]);
  });

  it('is none at all in a first audio stage on 90 V', () => {
    expect(silent(check, check.passes, ['from C-4.5 to V2.grid', 'from A- to V2.grid'])).toEqual(
      [],
    );
  });

  it.each(['radio', 'detector', 'oscillator', 'radio audio'])(
    'is no matter of a %s stage',
    (role) => {
      expect(silent(check, check.fails, ['output stage', `${role} stage`])).toEqual([]);
    },
  );

  it('is that of a plate detector, biased nearly to nothing', () => {
    const text = check.passes
      .replace('from C-4.5 to V2.grid', 'from C-27 to V2.grid')
      .replace('audio stage AF1', 'detector stage AF1');
    expect(silent(check, text)).toEqual([]);
  });

  it('is within .4 and 1.6 of the published current', () => {
    const text = check.passes.replace('tap C-27 -27 V', 'tap C-27 -22.5 V');
    expect(silent(check, text)).toEqual([]);
  });

  it('is not judged far from every published point, nor without one', () => {
    const low = check.fails.replace('tap B+135 135 V', 'tap B+135 50 V');
    expect(silent(check, low)).toEqual([]);
    const own = '\ntube type 71-A {\n  filament 5 V .25 A\n  amplification 3\n}\n';
    expect(silent(check, check.fails + own).filter((said) => said.startsWith('V3'))).toEqual([]);
  });

  it('suits the tap, though a resistance in the supply takes most of its volts', () => {
    const text = check.passes
      .replace('tube V3 71-A', 'tube V3 12-A')
      .replace('tap C-27 -27 V', 'tap C-27 -9 V')
      .replace('wire B- to A- to C+', 'resistor R9 8 kilohms from B- to A-\n  wire A- to C+');
    expect(silent(check, text)).toEqual([]);
  });

  it('is not judged behind a high resistor', () => {
    const text = check.fails.replace('horn H1 2000 ohms', 'resistor R9 20 kilohms');
    expect(silent(check, text)).toEqual([]);
  });

  it('is not judged on a tap that is strapped to another: its volts are not its own', () => {
    expect(saidOf(check, check.passes, ['-27 V', '-9 V'])).not.toEqual([]);
    expect(
      silent(
        check,
        check.passes,
        ['-27 V', '-9 V'],
        ['wire B- to A-', 'wire B+45 to B+135\n  wire B- to A-'],
      ),
    ).toEqual([]);
  });

  it('is not judged with a filament far from its rating, or an unknown resistance', () => {
    expect(silent(check, check.fails, ['resistor F3 4 ohms', 'resistor F3 20 ohms'])).toEqual([]);
    expect(silent(check, check.fails, ['resistor F3 4 ohms', 'resistor F3'])).toEqual([]);
  });
});
