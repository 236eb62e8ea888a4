import { describe, expect, it } from 'vitest';
import { allChecks } from '../../src/all.ts';
import { cBatteryIdle as check } from '../../src/checks/c-battery-idle.ts';
import { checkCircuit } from '../../src/run.ts';
import { saidOf, silent } from '../at-work.ts';
import { edited } from '../edited.ts';
import { circuitOf, findingsOf, told } from '../support.ts';
import { afterFix } from '../trying.ts';

/** What all checks tell of a text with words exchanged, by their ids. */
const allOf = (...changes: readonly (readonly [string, string])[]): string[] =>
  checkCircuit(circuitOf(edited(check.fails, ...changes)), allChecks)
    .findings.filter(({ severity }) => severity !== 'information')
    .map((found) => found.check);

const phones = 'phones PH1 2000 ohms from V2.plate to B+90';
const end = `    ${phones}\n  }\n`;
const with2 = (lines: string): readonly [string, string] => [end, `${end}  ${lines}\n`];

describe('a C battery that no grid hangs on', () => {
  it('is told where the one audio grid was left on C+', () => {
    expect(told(check.fails, findingsOf(check, check.fails))).toEqual([
      'c-battery-idle warning @ battery C dry',
    ]);
    expect(findingsOf(check, check.fails)[0]).toMatchObject({
      message:
        'C gives no grid its bias: no return leads to C-4.5, and the grid of V2 returns to C+.',
      cure: 'Lead the grid return of V2 to C-4.5; if the set is meant to work without bias, take C out.',
      parts: ['C', 'V2'],
    });
  });

  it('is put to use by the fix', () => {
    const mended = afterFix(check, check.fails);
    expect(mended).toContain('from C-4.5 to V2.grid');
    expect(silent(check, mended)).toEqual([]);
  });

  it('is told where the grid was left on A-, or on its own filament', () => {
    expect(saidOf(check, check.fails, ['from C+ to V2', 'from A- to V2'])[0]).toMatch(
      /the grid of V2 returns to A-\.$/,
    );
    expect(saidOf(check, check.fails, ['from C+ to V2', 'from V2.filament- to V2'])[0]).toMatch(
      /the grid of V2 returns to V2\.filament-\.$/,
    );
  });

  it('is told of a first audio stage on 90 V, of which bias-out-of-step keeps silent', () => {
    const inNegativeLead = [
      ['RH2 20 ohms from A+', 'RH2 20 ohms from A-'],
      ['from A- to RH2', 'from RH2 to A+'],
    ] as const;
    expect(allOf(...inNegativeLead)).toEqual(['c-battery-idle']);
  });

  it('is the cause of too much plate current, which is not told as well', () => {
    expect(allOf()).toEqual(['c-battery-idle']);
  });

  it('is told though a bypass lies at its tap', () => {
    expect(saidOf(check, check.fails, with2('condenser C9 1 mfd from C-4.5 to A-'))).toHaveLength(
      1,
    );
  });

  it('is told though its lead ends at a post for it', () => {
    expect(saidOf(check, check.fails, with2('post C-\n  wire C-4.5 to C-'))).toHaveLength(1);
    expect(
      saidOf(check, check.fails, with2('bus CNEG "grid bias"\n  wire C-4.5 to CNEG .1 ohms')),
    ).toHaveLength(1);
  });

  it('leaves the choice among several taps, and offers no fix', () => {
    const [found] = findingsOf(
      check,
      edited(check.fails, ['tap C-4.5', 'tap C-4.5\n    tap C-9 -9 V']),
    );
    expect(found?.message).toContain('no return leads to C-4.5 or C-9');
    expect(found?.cure).toContain('to the tap that it wants, C-4.5 or C-9;');
    expect(found?.fixes).toEqual([]);
  });

  it('is told by the one tap that it hangs on, which may be the wrong one', () => {
    const [found] = findingsOf(
      check,
      edited(check.fails, ['GND to C+', 'GND to C-4.5'], ['from C+ to V2', 'from A- to V2']),
    );
    expect(found?.message).toBe(
      'C gives no grid its bias: nothing is joined to C+, and the grid of V2 returns to A-.',
    );
    expect(found?.cure).toMatch(/^Join C\+ to A- and lead the grid return of V2 to C-4\.5;/);
    expect(found?.fixes).toEqual([]);
  });

  it('is known by its taps where no volts are said', () => {
    const text = edited(check.fails, ['tap C-4.5', 'tap C-']);
    expect(saidOf(check, text)).toEqual([
      'warning: C gives no grid its bias: no return leads to C-, and the grid of V2 returns to C+.',
    ]);
  });

  it('is told in a set that was traced wire by wire, without stages', () => {
    const traced = edited(
      check.fails,
      ['  detector stage DET {\n', ''],
      ['  }\n  audio stage AF1 {\n', ''],
      [`    ${phones}\n  }`, `    ${phones}`],
    );
    expect(saidOf(check, traced)).toHaveLength(1);
  });

  it('is information where the grid has its bias without it', () => {
    const [found] = findingsOf(
      check,
      edited(
        check.fails,
        ['from C+ to V2', 'from B- to V2'],
        ['wire B- to A- to', 'resistor R9 1000 ohms from B- to A-\n  wire A- to'],
      ),
    );
    expect(found?.severity).toBe('information');
    expect(found?.message).toMatch(/, and V2 has its bias without it\.$/);
    expect(found?.parts).toEqual(['C']);
  });
});

describe('a C battery is in use', () => {
  it('by one of its taps, whatever becomes of the others', () => {
    expect(silent(check, check.passes)).toEqual([]);
    expect(silent(check, check.passes, ['tap C-4.5', 'tap C-4.5\n    tap C-9 -9 V'])).toEqual([]);
  });

  it.each([
    ['a grid leak', 'leak R9 .5 meg from C-4.5 to V2.grid'],
    ['a resistance', 'resistor R9 50 kilohms from C-4.5 to V2.grid'],
    ['a choke', 'choke CH1 30 H from C-4.5 to V2.grid'],
    ['a switch', 'switch S1 from C-4.5 to V2.grid open'],
    ['a selector', 'selector S1 from V2.grid to C+, C-4.5 set C+'],
    ['a way to a post that is not its own', 'post AMP\n  wire C-4.5 to AMP'],
    ['a resistance that leads nowhere yet', 'resistor R9 50 kilohms from C-4.5'],
    ['a potentiometer', 'potentiometer P1 200 ohms from C+ to C-4.5 arm to L1.grid.start'],
  ])('through %s', (_, line) => {
    expect(silent(check, check.fails, with2(line))).toEqual([]);
  });

  it('through a potentiometer whose arm is the return', () => {
    expect(
      silent(
        check,
        check.fails,
        ['from C+ to V2', 'from P1.arm to V2'],
        with2('potentiometer P1 5000 ohms from C+ to C-4.5'),
      ),
    ).toEqual([]);
  });

  it('through the half of a transformer, the secondary of a push-pull stage', () => {
    expect(
      silent(check, check.fails, [
        'winding secondary 5000 ohms from C+ to V2.grid',
        'winding secondary 5000 ohms centre to C-4.5 from C+ to V2.grid',
      ]),
    ).toEqual([]);
  });

  it('under another that stands on it', () => {
    const stacked = edited(
      check.passes,
      ['battery C dry', 'battery D dry { tap D+ tap D-9 -9 V }\n  battery C dry'],
      ['from C-4.5 to V2', 'from D-9 to V2'],
      ['to GND to C+', 'to GND to C+\n  wire C-4.5 to D+'],
    );
    expect(silent(check, stacked)).toEqual([]);
    // The upper one alone is idle where the return was led past it.
    expect(saidOf(check, stacked, ['from D-9 to V2', 'from C-4.5 to V2'])).toEqual([
      'information: D gives no grid its bias: no return leads to D-9, and V2 has its bias without it.',
    ]);
  });

  it('in a radio stage that returns to it', () => {
    expect(
      silent(check, check.fails, [
        'winding grid 240 uH from GND',
        'winding grid 240 uH from C-4.5',
      ]),
    ).toEqual([]);
  });

  it('by a suppose that joins or changes it', () => {
    const suppose = (line: string) => with2(`suppose "with bias" {\n    ${line}\n  }`);
    expect(silent(check, check.fails, suppose('swap C+ with C-4.5'))).toEqual([]);
    expect(silent(check, check.fails, suppose('join C-4.5 to V2.grid'))).toEqual([]);
    expect(saidOf(check, check.fails, suppose('weak C'))).toHaveLength(1);
  });

  it('not at all, and meant so', () => {
    expect(allOf(['post ANT', 'meant c-battery-idle "cells are gone"\n  post ANT'])).not.toContain(
      'c-battery-idle',
    );
  });

  it('not yet, as its title or a note says', () => {
    expect(silent(check, check.fails, ['C dry', 'C "spare" dry'])).toEqual([]);
    expect(silent(check, check.fails, ['post ANT', 'note "C is not used"\n  post ANT'])).toEqual(
      [],
    );
  });
});

describe('nothing is told of a C battery', () => {
  it.each<[string, ...(readonly [string, string])[]]>([
    ['while a grid is joined to nothing', [' to V2.grid', '']],
    ['while a grid floats', ['from C+ to V2.grid', 'to V2.grid']],
    ['while a plate leads nowhere', [phones, 'phones PH1 2000 ohms from B+45 to B+90']],
    ['while the phones lead nowhere', [phones, 'phones PH1 2000 ohms from V2.plate']],
    [
      'while there is nothing to hear it by',
      [phones, 'resistor R9 20 kilohms from V2.plate to B+90'],
    ],
    ['while the next stage has no tube', [end, `${end}  output stage AF2 {\n  }\n`]],
    [
      'while the next transformer has one winding',
      with2('transformer T2 {\n    winding primary 800 ohms from V2.plate to B+90\n  }'),
    ],
    [
      'while the next transformer drives nothing',
      with2(
        'transformer T2 {\n    winding primary 800 ohms from V2.plate to B+90\n    winding secondary 5000 ohms from C+\n  }',
      ),
    ],
    ['in a set without an audio stage', ['audio stage AF1', 'radio stage AF1']],
    ['that nothing at all is joined to', [' to C+\n', '\n'], ['from C+ to', 'from A- to']],
    [
      'that the grids hang on, but no filament',
      [' to C+\n', '\n'],
      ['from C+ to', 'from C-4.5 to'],
    ],
    ['that is part of an eliminator', ['battery C dry', 'eliminator C']],
    [
      'with a tap above its zero, which may feed plates',
      ['tap C-4.5', 'tap C-4.5\n    tap D+22 22 V'],
    ],
  ])('%s', (_, ...changes) => {
    expect(findingsOf(check, edited(check.fails, ...changes))).toEqual([]);
  });

  it('while a line cannot be read, which may be the one that leads to it', () => {
    const text = edited(check.fails, with2('wire C-4.5 to'));
    expect(checkCircuit(circuitOf(text), [check])).toMatchObject({
      findings: [],
      waiting: ['c-battery-idle'],
    });
  });
});
