import { describe, expect, it } from 'vitest';
import { batteriesInParallel } from '../../src/checks/batteries-in-parallel.ts';
import { findingsOf, told } from '../support.ts';

const say = (text: string): string[] => told(text, findingsOf(batteriesInParallel, text));
const messages = (text: string): string[] =>
  findingsOf(batteriesInParallel, text).map(({ message }) => message);

const blocks = (first: string, second: string, wires: string): string => `receiver "x" {
  battery B1 ${first}
  battery B2 ${second}
${wires}
}
`;
const block = (n: number, volts: number, kind = 'dry'): string =>
  `${kind} {\n    tap M${n} 0 V\n    tap P${n} ${volts} V\n  }`;

describe('batteries in parallel', () => {
  it('are told where the lead for 45 is strapped to 22', () => {
    const text = batteriesInParallel.fails;
    expect(say(text)).toEqual(['batteries-in-parallel error @ wire B+45 to TOP to B+22']);
    expect(messages(text)).toEqual([
      'B+22 and B+45 are joined by wire alone, with 22.5 V of B between them.',
    ]);
    expect(say(batteriesInParallel.passes)).toEqual([]);
  });

  it('are told where a new block of 45 V lies across a tired one of 38 V', () => {
    const text = blocks(block(1, 45), block(2, 38), '  wire M1 to M2\n  wire P1 to P2');
    expect(say(text)).toEqual(['batteries-in-parallel error @ battery B2 dry']);
    expect(messages(text)).toEqual([
      'B2 lies across B1: from M2 to P2 it gives 38 V, and B1 gives 45 V.',
    ]);
    expect(findingsOf(batteriesInParallel, text)[0]?.parts).toEqual(['B2', 'B1']);
  });

  it('are told where one of two is turned round', () => {
    const text = blocks(block(1, 45), block(2, 45), '  wire M1 to P2\n  wire P1 to M2');
    expect(messages(text)).toEqual([
      'B2 lies across B1: from M2 to P2 it gives 45 V, and B1 gives -45 V.',
    ]);
    expect(findingsOf(batteriesInParallel, text)[0]?.cure).toContain('Turn B2 round');
  });

  it('are told where dry cells lie across a storage battery of the same volts', () => {
    const text = blocks(block(1, 6, 'storage'), block(2, 6), '  wire M1 to M2\n  wire P1 to P2');
    expect(say(text)).toEqual(['batteries-in-parallel warning @ battery B2 dry']);
    expect(messages(text)).toEqual(['B2 (dry) and B1 (storage) are in parallel.']);
  });

  it('are told where only a switch joins them, at the position where it does', () => {
    const text = blocks(
      block(1, 45),
      block(2, 67.5),
      '  wire M1 to M2\n  post X\n  selector S1 from P1 to X, P2 set X',
    );
    expect(messages(text)).toEqual([
      'With S1 at P2, B2 lies across B1: from M2 to P2 it gives 67.5 V, and B1 gives 45 V.',
    ]);
  });

  it('are told where two blocks in series lie across a third', () => {
    const text = `receiver "x" {
  battery B1 ${block(1, 45)}
  battery B2 ${block(2, 45)}
  battery B3 ${block(3, 67.5)}
  wire P1 to M2
  wire M1 to M3
  wire P2 to P3
}
`;
    expect(messages(text)).toEqual([
      'B3 lies across B1 and B2: from M3 to P3 it gives 67.5 V, and B1 and B2 give 90 V.',
    ]);
  });
});

describe('a winding between two taps', () => {
  it('of 800 ohms is told, with the current that burns it out', () => {
    const text = `receiver "x" {
  battery B dry {
    tap B-
    tap B+45
    tap B+90
  }
  transformer T1 {
    winding primary 800 ohms from B+45 to B+90
  }
}
`;
    expect(say(text)).toEqual([
      'batteries-in-parallel warning @ winding primary 800 ohms from B+45 to B+90',
    ]);
    expect(messages(text)).toEqual([
      'B+45 and B+90 are joined through T1.primary, with 45 V of B between them.',
    ]);
    expect(findingsOf(batteriesInParallel, text)[0]?.why).toContain('56.3 mA');
  });
});

describe('no fault is', () => {
  it('a bias potentiometer between A+ and the C battery', () => {
    const text = `receiver "x" {
  battery A storage {
    tap A- 0 V
    tap A+ 6 V
  }
  battery C dry {
    tap C+
    tap C-9
  }
  post G
  wire A- to C+
  potentiometer P1 400 ohms from A+ to C-9 arm to G set 40 %
  resistor R1 200 ohms from A+ to C-9
}
`;
    expect(say(text)).toEqual([]);
  });

  it('two blocks of equal volts side by side', () => {
    expect(say(blocks(block(1, 45), block(2, 45), '  wire M1 to M2\n  wire P1 to P2'))).toEqual([]);
  });

  it('a fresh block of 46.5 V beside one of 45 V', () => {
    expect(say(blocks(block(1, 45), block(2, 46.5), '  wire M1 to M2\n  wire P1 to P2'))).toEqual(
      [],
    );
  });

  it('a charger of 7.5 V across the storage battery', () => {
    const text = `receiver "x" {
  battery A ${block(1, 6, 'storage')}
  eliminator CH {
    tap CH-
    tap CH+ 7.5 V
  }
  wire CH- to M1
  wire CH+ to P1
}
`;
    expect(say(text)).toEqual([]);
  });

  it('two blocks one above the other', () => {
    expect(say(blocks(block(1, 45), block(2, 45), '  wire P1 to M2'))).toEqual([]);
  });

  it('a resistance of more than a kilohm between two taps', () => {
    const text = blocks(
      block(1, 45),
      block(2, 90),
      '  wire M1 to M2\n  resistor R1 5 kilohms from P1 to P2',
    );
    expect(say(text)).toEqual([]);
  });

  it('a filament or a lamp between two taps', () => {
    const text = blocks(
      block(1, 4.5),
      block(2, 6),
      '  wire M1 to M2\n  tube V1 01-A {\n    filament from P1 to P2\n  }\n  lamp PL1 6 V .15 A from P1 to P2',
    );
    expect(say(text)).toEqual([]);
  });

  it('a strap between taps whose volts are not known', () => {
    const text = `receiver "x" {
  battery B dry {
    tap B-
    tap B+DET
    tap B+AMP
  }
  wire B+DET to B+AMP
}
`;
    expect(say(text)).toEqual([]);
  });

  it('a separate A battery for an add-on amplifier, joined at its minus', () => {
    const text = blocks(block(1, 6, 'storage'), block(2, 4.5), '  wire M1 to M2');
    expect(say(text)).toEqual([]);
  });
});
