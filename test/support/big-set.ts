/** A sound set of as many radio stages as asked for, to see how time grows with the size of a set. */
export function bigSet(stages: number): string {
  const lines = [
    'receiver "Lantern Cove ladder" {',
    '  battery A storage { tap A- tap A+ 6 V }',
    '  battery B dry { tap B- tap B+67 67.5 V }',
    '  post ANT aerial',
    '  post GND ground',
    '  bus NEG "negative filament bus"',
    '  wire B- to A- to GND',
    '  switch S1 "battery switch" from A- to NEG closed',
  ];
  for (let n = 1; n <= stages; n += 1) {
    const primary = n === 1 ? 'from ANT to GND' : `from V${n - 1}.plate to B+67`;
    lines.push(
      `  radio stage RF${n} "amplifier ${n}" {`,
      `    coil L${n} {`,
      '      form 2 3/4 in',
      `      winding plate 10 turns of 26 DCC ${primary}`,
      '      winding grid 56 turns of 26 DCC beside plate spaced 1/4 in from GND',
      '    }',
      `    condenser C${n} variable 14 to 365 mmfd rotor to L${n}.grid.start stator to L${n}.grid.finish`,
      `    resistor R${n} 1000 ohms from L${n}.grid.finish to V${n}.grid`,
      `    rheostat RH${n} 20 ohms from NEG set 4 ohms`,
      `    tube V${n} 01-A {`,
      `      filament from RH${n} to A+`,
      ...(n === stages ? ['      plate to PH'] : []),
      '    }',
      '  }',
    );
  }
  lines.push(`  phones PH 2000 ohms to B+67`, '}', '');
  return lines.join('\n');
}
