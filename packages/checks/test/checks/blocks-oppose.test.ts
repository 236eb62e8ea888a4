import { describe, expect, it } from 'vitest';
import { blocksOppose } from '../../src/checks/blocks-oppose.ts';
import { findingsOf, told } from '../support.ts';

const say = (text: string): string[] => told(text, findingsOf(blocksOppose, text));
const messages = (text: string): string[] =>
  findingsOf(blocksOppose, text).map(({ message }) => message);

const block = (n: number, volts = 45): string =>
  `  battery B${n} dry {\n    tap M${n} 0 V\n    tap P${n} ${volts} V\n  }\n`;
const set = (blocks: string, lines: string): string => `receiver "x" {
  battery A storage {
    tap A- 0 V
    tap A+ 6 V
  }
${blocks}  tube V1 01-A {
    filament from A- to A+
  }
${lines}
}
`;

describe('two blocks oppose', () => {
  it('joined plus to plus: the plate gets nothing', () => {
    const text = blocksOppose.fails;
    expect(say(text)).toEqual(['blocks-oppose error @ wire P1 to P2']);
    expect(messages(text)).toEqual([
      'B2 stands against B1, P2 on P1: the plate of V1 gets 0 V where the blocks would give 45 V.',
    ]);
    expect(findingsOf(blocksOppose, text)[0]).toMatchObject({
      parts: ['B2', 'B1', 'V1'],
      cure: 'Turn B2 round: exchange P2 and M2.',
    });
    expect(say(blocksOppose.passes)).toEqual([]);
  });

  it('when the lower one is turned', () => {
    const text = set(
      block(1) + block(2),
      '  wire P1 to A-\n  wire M1 to M2\n  wire V1.plate to P2',
    );
    expect(say(text)).toEqual(['blocks-oppose error @ wire M1 to M2']);
    expect(messages(text)).toEqual([
      'B1 stands against B2, M1 on M2: the plate of V1 gets 0 V where the blocks would give 90 V.',
    ]);
  });

  it('the third of three: 45 V stand where 135 should be', () => {
    const text = set(
      block(1) + block(2) + block(3),
      '  wire M1 to A-\n  wire P1 to M2\n  wire P2 to P3\n  wire M3 to V1.plate',
    );
    expect(messages(text)).toEqual([
      'B3 stands against B2, P3 on P2: the plate of V1 gets 45 V where the blocks would give 135 V.',
    ]);
  });

  it('is information where a selector puts it right', () => {
    const text = set(
      block(1) + block(2),
      `  wire M1 to A-
  wire P1 to P2
  selector S2 from V1.plate to M2, P1 set M2`,
    );
    expect(say(text)).toEqual(['blocks-oppose information @ wire P1 to P2']);
  });
});

describe('blocks do not oppose', () => {
  it('side by side with equal volts', () => {
    const text = set(
      block(1) + block(2),
      '  wire M1 to M2 to A-\n  wire P1 to P2\n  wire V1.plate to P1',
    );
    expect(say(text)).toEqual([]);
  });

  it('as C batteries stacked for more bias', () => {
    const bias = (n: number): string =>
      `  battery C${n} dry {\n    tap C+${n === 1 ? '' : 'x'} 0 V\n    tap C-22x${n} -22.5 V\n  }\n`;
    const text = set(
      block(1) + bias(1) + bias(2),
      '  wire M1 to A- to C+\n  wire C-22x1 to C+x\n  leak R1 .5 meg from C-22x2 to V1.grid\n  wire V1.plate to P1',
    );
    expect(say(text)).toEqual([]);
  });

  it('where a cell holds a meter back', () => {
    const text = set(
      `${block(1)}${block(2)}  battery X dry {\n    tap X- 0 V\n    tap X+ 1.5 V\n  }\n`,
      '  wire M1 to A-\n  wire P1 to M2\n  wire P2 to X+\n  wire X- to V1.plate',
    );
    expect(say(text)).toEqual([]);
  });

  it('as two B batteries that share their minus and feed different tubes', () => {
    const text = set(
      block(1) + block(2, 90),
      `  wire M1 to M2 to A-
  wire P1 to V1.plate
  tube V2 01-A {
    filament from A- to A+
    plate to P2
  }`,
    );
    expect(say(text)).toEqual([]);
  });

  it('when the volts of one are not known', () => {
    const text = set(
      `${block(1)}  battery B2 dry {\n    tap B-\n    tap B+DET\n  }\n`,
      '  wire M1 to A-\n  wire P1 to B+DET\n  wire B- to V1.plate',
    );
    expect(say(text)).toEqual([]);
  });
});
