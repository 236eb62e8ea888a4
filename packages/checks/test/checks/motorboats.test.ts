import { describe, expect, it } from 'vitest';
import { motorboats as check } from '../../src/checks/motorboats.ts';
import { saidOf, silent } from '../at-work.ts';
import { findingsOf, told } from '../support.ts';

/** Two batteries without resistance, and the shared ohms in the lead that both stages hang on. */
const shared = (ohms: string, which: 'last two' | 'first and last'): string => {
  const b = which === 'last two' ? ['X+45', 'B+90', 'B+135'] : ['B+45', 'X+90', 'B+135'];
  return check.passes
    .replace('R9 "limiter" 2 ohms', `R9 "limiter" ${ohms}`)
    .replace(
      'battery C dry',
      'battery X dry {\n    tap X- 0 V\n    tap X+45 45 V\n    tap X+90 90 V\n    resistance .01 ohms\n  }\n  battery C dry',
    )
    .replace('wire A- to C+', 'wire X- to A- to C+')
    .replace('    resistance 30 ohms', '    resistance .01 ohms')
    .replace('to B+45\n', `to ${b[0]}\n`)
    .replace('finish to B+90', `finish to ${b[1]}`)
    .replace('to B+135\n', `to ${b[2]}\n`);
};
/** The set of the reckoning by hand: 14 henries, 1 to 3.5, three 01-A, a horn of one henry. */
const byHand = (text: string): string =>
  text
    .replaceAll('ratio 1 to 3 {', 'ratio 1 to 3.5 {')
    .replace('tube V3 12-A', 'tube V3 01-A')
    .replace('horn H1 2000 ohms', 'horn H1 500 ohms 1 H');
/** The last two stages grow with the other sense of the transformer between them. */
const turned = (text: string): string =>
  text.replace('start to V2.plate finish to', 'finish to V2.plate start to');

const heardOf = (text: string): string[] => findingsOf(check, text).map(({ severity }) => severity);

describe('audio stages that set one another off', () => {
  it('do it through a resistor left in the B lead', () => {
    expect(told(check.fails, findingsOf(check, check.fails))).toEqual([
      'motorboats warning @ resistor R9 "limiter" 1 kilohm from B- to A-',
    ]);
    const [found] = findingsOf(check, check.fails);
    expect(found?.message).toMatch(
      /^V1, V2 and V3 are coupled through R9 \(1000 ohms\): round that loop a signal comes back \d\d times as large near \d+ cycles\.$/,
    );
    expect(found?.cure).toContain('Take R9 out of the common lead');
    expect(found?.parts).toEqual(['R9', 'V1', 'V2', 'V3']);
  });

  it('need about 20 ohms shared by the first and the last, by hand', () => {
    expect(heardOf(byHand(shared('10 ohms', 'first and last')))).toEqual([]);
    expect(heardOf(byHand(shared('40 ohms', 'first and last')))).toEqual(['warning']);
  });

  it('need about 500 ohms shared by the last two, by hand', () => {
    const text = (ohms: string) => turned(byHand(shared(ohms, 'last two')));
    expect(heardOf(text('350 ohms'))).toEqual([]);
    expect(heardOf(text('900 ohms'))).toEqual(['warning']);
  });

  it('may do it through a tired battery', () => {
    const text = check.passes.replace('resistance 30 ohms', 'resistance 1000 ohms');
    expect(saidOf(check, text)[0]).toMatch(
      /^warning: V1, V2 and V3 are coupled through the resistance of B \(1000 ohms\)/,
    );
  });

  it('is information where the sense of a transformer is not said', () => {
    const text = check.fails.replace('start to V2.plate finish to B+90', 'from V2.plate to B+90');
    expect(saidOf(check, text)[0]).toMatch(
      /^information: .* may come back .*, in one of the two senses that T2 may have\.$/,
    );
  });

  it('is information within a quarter of the edge', () => {
    const severities = ['8', '9', '10', '11', '12', '13', '14', '16', '18', '20', '23', '26']
      .map((ohms) => heardOf(byHand(shared(`${ohms} ohms`, 'first and last')))[0])
      .filter((severity) => severity !== undefined);
    expect(severities).toContain('information');
    expect(severities.at(-1)).toBe('warning');
  });
});

/** Three stages with plate resistors; the last works straight into the horn. */
const resistors = (battery: string, reservoir = ''): string => {
  const cut = (text: string, from: string, to: string, put: string): string =>
    text.slice(0, text.indexOf(from)) + put + text.slice(text.indexOf(to));
  const first = cut(
    check.passes,
    '    transformer T1',
    '    tube V2',
    '    resistor R2 100 kilohms from V1.plate to B+135\n    condenser C5 .01 mfd from V1.plate to V2.grid\n    leak R3 1 meg from V2.grid to A-\n',
  );
  return cut(
    first,
    '    transformer T2',
    '    tube V3',
    '    resistor R4 100 kilohms from V2.plate to B+135\n    condenser C6 .01 mfd from V2.plate to V3.grid\n    leak R5 1 meg from V3.grid to C-9\n',
  )
    .replace('resistance 30 ohms', `resistance ${battery}`)
    .replace('  detector stage', `${reservoir}  detector stage`);
};

describe('resistance-coupled stages, which need no sense to be said', () => {
  it('putter, three of them on a very tired battery', () => {
    expect(saidOf(check, resistors('3000 ohms'))[0]).toMatch(
      /^warning: V1, V2 and V3 are coupled through the resistance of B \(3000 ohms\)/,
    );
  });

  it('are quiet on a good one, or with a large condenser across it', () => {
    expect(silent(check, resistors('40 ohms'))).toEqual([]);
    const reservoir = '  condenser C8 100 mfd from B+135 to A-\n';
    expect(
      findingsOf(check, resistors('3000 ohms', reservoir)).filter(
        ({ severity }) => severity === 'warning',
      ),
    ).toEqual([]);
  });
});

describe('a battery whose resistance is not said', () => {
  const text = check.passes.replace('    resistance 30 ohms\n', '');

  it('gets the resistance that would start it, as information', () => {
    expect(told(text, findingsOf(check, text))).toEqual(['motorboats information @ battery B dry']);
    expect(saidOf(check, text)[0]).toMatch(
      /^information: The resistance of B is not said: from about \d+ ohms on V1, V2 and V3 would set one another off through it\.$/,
    );
  });

  it('gets none where even a tired block would not', () => {
    const quiet = text
      .replace(
        'horn H1 2000 ohms from V3.plate to B+135',
        'choke CH1 30 H 300 ohms from V3.plate to B+135\n    condenser C9 2 mfd from V3.plate to H1.start\n    horn H1 2000 ohms to A-',
      )
      .replace('ohms reversed from V1', 'ohms start to V1')
      .replace('start to V1.plate to B+45', 'start to V1.plate finish to B+45')
      .replace(
        'secondary 5000 ohms from C-4.5 to V2.grid',
        'secondary 5000 ohms start to C-4.5 finish to V2.grid',
      );
    expect(silent(check, quiet)).toEqual([]);
  });
});

describe('stages that do not set one another off', () => {
  it('share two ohms and a fresh battery', () => {
    expect(silent(check, check.passes)).toEqual([]);
  });

  it('have their transformers the quiet way round', () => {
    const text = check.fails
      .replace('ohms reversed from V1.plate to B+45', 'ohms start to V1.plate finish to B+45')
      .replace('from C-4.5 to V2.grid', 'start to C-4.5 finish to V2.grid');
    expect(silent(check, text)).toEqual([]);
  });

  it('may come back less than three times where the sense is not said', () => {
    const text = check.passes
      .replace('start to V2.plate finish to', 'from V2.plate to')
      .replace('2 ohms from B- to A-', '20 ohms from B- to A-');
    expect(silent(check, text)).toEqual([]);
  });

  it('share nothing, or are one alone', () => {
    expect(silent(check, byHand(shared('.01 ohms', 'first and last')))).toEqual([]);
  });

  it('hang on something of which the resistance, ratio or data is not known', () => {
    const mains = check.fails
      .replace('battery B dry', 'eliminator B')
      .replace('    resistance 30 ohms\n', '');
    expect(silent(check, mains)).toEqual([]);
    expect(
      silent(check, check.fails, ['T2 ratio 1 to 3', 'T2'], ['primary 14 H', 'primary']),
    ).toEqual([]);
    const own = '\ntube type 12-A {\n  filament 5 V .25 A\n  amplification 8\n}\n';
    expect(silent(check, check.fails + own).filter((said) => said.includes('coupled'))).toEqual([]);
  });

  it('are resistance-coupled, two of them: adjacent stages hold each other back', () => {
    const first = check.fails.indexOf('    transformer T2');
    const coupled =
      check.fails.slice(0, first) +
      '    resistor R2 100 kilohms from V2.plate to B+90\n    condenser C5 .01 mfd from V2.plate to V3.grid\n    leak R3 .5 meg from V3.grid to C-9\n' +
      check.fails.slice(check.fails.indexOf('    tube V3'));
    const alone = coupled.replace(
      'winding primary 14 H 800 ohms reversed from V1.plate to B+45',
      'winding primary from GND to A+',
    );
    expect(saidOf(check, alone)).toEqual([]);
  });
});
