/** A set of which only the filament wiring is drawn; `NEG` is the switched negative side. */
export function filamentSet(battery: string, ...lines: readonly string[]): string {
  return [
    'receiver "Lantern Cove Filaments" {',
    `  battery A ${battery} {`,
    '    tap A- 0 V',
    `    tap A+ ${volts(battery)} V`,
    '  }',
    '  bus NEG',
    '  switch S1 from A- to NEG closed',
    ...lines.map((line) => `  ${line}`),
    '}',
    '',
  ]
    .join('\n')
    .replace(/(battery A \w+) [\d.]+ V/, '$1');
}

/** The volts that stand behind the battery's kind: `storage 6 V`, `dry 4.5 V`. */
function volts(battery: string): string {
  return /([\d.]+) V/.exec(battery)?.[1] ?? '6';
}
