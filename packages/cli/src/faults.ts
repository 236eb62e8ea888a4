import { type FaultTable, faultTable, supposedTable } from '@setwright/bench';
import type { Circuit } from '@setwright/circuit';
import {
  faultsInCsv,
  faultsInJson,
  faultsInWords,
  listed,
  type UnitStyle,
} from '@setwright/report';
import { benchesNamed } from './bench.ts';
import { type ExitCode, exitCodes } from './exit.ts';
import { readOneFile, sayNoReceiver } from './one-file.ts';
import type { Streams } from './streams.ts';
import { stylesFor } from './styles.ts';
import { sayWrong } from './troubles.ts';

export const faultsFormats = ['text', 'json', 'csv'] as const;

export interface FaultsOptions {
  readonly format: (typeof faultsFormats)[number];
  readonly units: UnitStyle;
  readonly short: boolean;
  /** Title of the bench whose meter counts; the first where not given. */
  readonly bench: string | undefined;
  /** Title of one supposition of the text, instead of the whole catalogue. */
  readonly suppose: string | undefined;
  /** Only the faults of this part, and of what it is made of. */
  readonly part: string | undefined;
}

/** `setwright faults`: what every fault of a set does to its readings and to the ear. */
export function faults(file: string, options: FaultsOptions, streams: Streams): ExitCode {
  const read = readOneFile(file, 'a fault may be missing here', streams);
  if (!read) return exitCodes.trouble;
  if (read.circuits.length === 0) {
    sayNoReceiver(read.path, streams);
    return exitCodes.trouble;
  }
  const benches = benchesNamed(read.circuits, options.bench, streams);
  if (!benches) return exitCodes.trouble;
  if (!isKnown(read.circuits, options, streams)) return exitCodes.trouble;
  const laws = new WeakMap();
  const tables = benches.flatMap(({ circuit, bench }) => {
    const { suppose, part } = options;
    if (suppose === undefined) return ofPart(faultTable(circuit, { bench, laws }), part);
    const supposes = circuit.supposes.filter(({ title }) => title === suppose);
    return supposes.length > 0 ? [supposedTable(circuit, supposes, { bench, laws })] : [];
  });
  streams.out.write(report(read.path, tables, options, streams));
  return exitCodes.clean;
}

/** Whether what the call names is in the file; where not, that is said. */
function isKnown(
  circuits: readonly Circuit[],
  { suppose, part }: FaultsOptions,
  streams: Streams,
): boolean {
  const supposes = circuits.flatMap((circuit) => circuit.supposes.map(({ title }) => title));
  if (suppose !== undefined && !supposes.includes(suppose)) {
    sayWrong(
      streams,
      `Nothing called "${suppose}" is supposed in this file.`,
      supposes.length > 0
        ? `It has ${listed(supposes.map((title) => `"${title}"`))}.`
        : 'It supposes nothing.',
    );
    return false;
  }
  if (part !== undefined && !circuits.some(({ partNamed }) => partNamed.has(part))) {
    sayWrong(streams, `There is no part called ${part}.`, 'Name one of the set.');
    return false;
  }
  return true;
}

function ofPart(table: FaultTable, part: string | undefined): readonly FaultTable[] {
  if (part === undefined) return [table];
  const { partNamed } = table.chart.circuit;
  const effects = table.effects.filter(
    ({ fault }) => fault.part === part || partNamed.get(fault.part)?.owner === part,
  );
  return effects.length > 0 ? [{ ...table, effects }] : [];
}

function report(
  path: string,
  tables: readonly FaultTable[],
  options: FaultsOptions,
  streams: Streams,
): string {
  switch (options.format) {
    case 'json':
      return faultsInJson(path, tables);
    case 'csv':
      return faultsInCsv(tables);
    case 'text': {
      const columns = streams.out.columns ?? 80;
      const styles = stylesFor(streams.out, streams.env);
      const { units: style, short } = options;
      return `${tables
        .map((table) => faultsInWords(table, { style, columns, styles, short }).join('\n'))
        .join('\n\n')}\n`;
    }
  }
}
