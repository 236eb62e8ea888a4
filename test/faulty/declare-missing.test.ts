import { allChecks, checkCircuit } from '@setwright/checks';
import type { Finding } from '@setwright/circuit';
import { readReceivers } from '@setwright/language';
import { describe, expect, it } from 'vitest';

/** A sound set with one more line in its stage. */
const withLine = (line: string): string => `receiver "Pier Light" {
  year 1925
  tunes 550 kc to 1500 kc
  battery A storage {
    tap A- 0 V
    tap A+ 6 V
  }
  battery B dry {
    tap B-
    tap B+45 45 V
  }
  post AERIAL aerial 250 mmfd
  post EARTH ground
  wire B- to A- to EARTH
  resistor R2 "filament resistor" 4 ohms from A-
  detector stage DET {
    coil L1 {
      form 3 in
      winding aerial 10 turns of 24 DCC from EARTH to AERIAL
      winding grid 46 turns of 24 DCC beside aerial spaced 1/4 in from EARTH
    }
    condenser C1 variable 20 to 500 mmfd rotor to L1.grid.start stator to L1.grid.finish
    condenser C2 .00025 mfd from L1.grid.finish to V1.grid
    leak R1 2 meg from V1.grid to A+
    tube V1 01-A {
      filament from R2 to A+
    }
    ${line}
    phones PH1 2000 ohms from V1.plate to B+45
  }
}
`;

function errorsOf(text: string): readonly Finding[] {
  const { circuits, remarks } = readReceivers(text, 'set.receiver');
  const found = circuits.flatMap((circuit) => checkCircuit(circuit, allChecks).findings);
  return [...remarks, ...found].filter(({ severity }) => severity === 'error');
}

/** The fixes that declare what a line names, and the text after each. */
function declaring(line: string) {
  const text = withLine(line);
  const unknown = errorsOf(text).filter(({ check }) => check === 'unknown-name');
  return unknown.flatMap(({ fixes }) =>
    fixes
      .filter(({ adds }) => adds)
      .map(({ title, edits }) => {
        const after = [...edits]
          .sort((a, b) => b.place.start - a.place.start)
          .reduce(
            (now, { place, text: put }) => now.slice(0, place.start) + put + now.slice(place.end),
            text,
          );
        return { title, after };
      }),
  );
}

/** Lines that name what is not declared, and what is offered to be declared for them. */
const cases: readonly (readonly [line: string, declares: readonly string[]])[] = [
  ['wire V1.plate to C9.start', ['condenser C9']],
  ['wire V1.plate to C9.stator', ['condenser C9 variable']],
  ['wire V1.plate to R9.start', ['resistor R9', 'leak R9']],
  ['wire V1.plate to L9.plate.start', ['coil L9 {']],
  ['wire V1.plate to L9.finish', ['coil L9 {', 'choke L9']],
  ['wire V1.plate to T9.P', ['transformer T9 {']],
  ['wire V1.plate to T9.primary.start', ['transformer T9 {']],
  ['wire L1.grid.finish to V9.grid', ['tube V9 {']],
  ['wire V1.plate to V9.plate', ['tube V9 {']],
  ['wire V1.plate to V9.cathode', ['tube V9 27']],
  ['wire A- to RH9.start', ['rheostat RH9']],
  ['wire A- to P9.start', ['potentiometer P9', 'phones P9']],
  ['wire A- to P9.arm', ['potentiometer P9']],
  ['wire A- to S9.start', ['switch S9']],
  ['wire A- to S9.arm', ['selector S9']],
  ['wire V1.plate to J9.tip', ['jack J9']],
  ['wire V1.plate to H9.start', ['horn H9']],
  ['wire V1.plate to X9.mineral', ['crystal X9']],
  ['wire V1.plate to B+67', ['tap B+67']],
  ['wire A- to NEG', ['bus NEG']],
  ['wire A- to GND', ['post GND ground']],
  ['resistor R8 50 ohms from A- to R9.start', ['resistor R9', 'leak R9']],
];

describe('a name that nobody declared', () => {
  it.each(cases)('%s: its part is declared in the stage that speaks of it', (line, declares) => {
    const lines = withLine(line).split('\n');
    const put = declaring(line).map(({ after }) => {
      const there = after.split('\n');
      return there.find((each, at) => each !== lines[at])?.trim();
    });
    expect(put).toEqual(declares);
  });

  it.each(cases)('%s: then it means something, and no error is added', (line) => {
    for (const { title, after } of declaring(line))
      expect(errorsOf(after).map(({ check, message }) => `${title}: ${check} ${message}`)).toEqual(
        [],
      );
  });

  it('is declared outside the block that names it, and as far set in as that', () => {
    const [only] = declaring(
      'tube V2 01-A {\n      filament from R2 to A+\n      plate to C9.start\n    }',
    );
    expect(only?.after).toContain('\n    condenser C9\n    tube V2 01-A {\n');
  });

  it.each([
    ['letters that stand for no kind', 'wire V1.plate to QQ9.start'],
    ['an end that parts of that letter have not', 'wire V1.plate to C9.grid'],
    ['a screen, of which only its type can speak', 'wire V1.plate to V9.screen'],
    ['a part of which no end is named', 'wire V1.plate to T9'],
    ['a tap of a battery that is not there', 'wire V1.plate to C-4.5'],
    ['a part that is there, by an end that it has not', 'wire V1.plate to V1.gird'],
  ])('is left to be declared by hand: %s', (_, line) => {
    expect(declaring(line)).toEqual([]);
  });
});
