import {
  type Circuit,
  type TracePath,
  type TraceStep,
  terminalName,
  traceDirectCurrent,
} from '@setwright/circuit';
import { listed, printableJson, type Styles, visible } from '@setwright/report';
import { formatQuantity } from '@setwright/units';
import { type ExitCode, exitCodes } from './exit.ts';
import { type OneFile, readOneFile, sayNoReceiver } from './one-file.ts';
import type { Streams } from './streams.ts';
import { stylesFor } from './styles.ts';
import { terminalNamed } from './terminal-names.ts';
import { type SignalTold, signalsFrom } from './trace-signals.ts';
import { withStands } from './trace-stands.ts';
import { sayWrong } from './troubles.ts';

export const traceFormats = ['text', 'json'] as const;
export const traceKinds = ['all', 'direct', 'radio', 'audio'] as const;

export interface TraceOptions {
  readonly format: (typeof traceFormats)[number];
  /** What is followed. */
  readonly kind: (typeof traceKinds)[number];
}

interface Traced {
  readonly circuit: Circuit;
  readonly terminal: string;
  readonly paths: readonly TracePath[];
  readonly signals: readonly SignalTold[];
}

/**
 * `setwright trace`: where direct current and signals go from a terminal, and why each part passes
 * them.
 */
export function trace(
  file: string,
  written: string,
  options: TraceOptions,
  streams: Streams,
): ExitCode {
  const read = readOneFile(file, 'a path may be missing here', streams);
  if (!read) return exitCodes.trouble;
  const { circuits } = read;
  const traced = circuits.flatMap((circuit): Traced | [] => {
    const named = terminalNamed(circuit, written);
    if (!('id' in named)) return [];
    const { kind } = options;
    const isDirect = kind === 'all' || kind === 'direct';
    const kinds = (['radio', 'audio'] as const).filter((each) => kind === 'all' || kind === each);
    return {
      circuit,
      terminal: named.id,
      paths: isDirect ? withStands(circuit, traceDirectCurrent(circuit, named.id)) : [],
      signals: signalsFrom(circuit, named.id, kinds),
    };
  });
  if (traced.length === 0) {
    sayNotFound(written, read, streams);
    return exitCodes.trouble;
  }
  streams.out.write(
    options.format === 'json'
      ? inJson(read.path, traced)
      : inWords(traced, stylesFor(streams.out, streams.env)),
  );
  return exitCodes.clean;
}

function sayNotFound(written: string, { path, circuits }: OneFile, streams: Streams) {
  if (circuits.length === 0) {
    sayNoReceiver(path, streams);
    return;
  }
  const named = circuits.map((circuit) => terminalNamed(circuit, written));
  const choices = named.flatMap((name) => ('choices' in name ? name.choices : []));
  if (choices.length > 0) {
    sayWrong(
      streams,
      `${written} has more than one end.`,
      `Say which: ${listed([...new Set(choices)], 'or')}.`,
    );
    return;
  }
  const likely = [...new Set(named.flatMap((name) => ('likely' in name ? name.likely : [])))];
  sayWrong(
    streams,
    `No terminal is called "${written}".`,
    likely.length > 0
      ? `Did you mean ${listed(likely, 'or')}?`
      : 'A terminal is called by its part and end, such as V1.grid, or by its tap, such as B+45.',
  );
}

function inJson(path: string, traced: readonly Traced[]): string {
  const report = {
    version: 1,
    path,
    receivers: traced.map(({ circuit, terminal, paths, signals }) => ({
      title: circuit.title,
      terminal,
      paths: paths.map(({ heading, steps, blocked }) => ({
        heading,
        steps: steps.map(({ part, from, to, because, ohms, volts }) => ({
          part,
          from,
          to,
          because,
          ohms,
          volts,
        })),
        blocked: blocked && { part: blocked.part, because: blocked.because },
      })),
      signals,
    })),
  };
  return `${printableJson(report)}\n`;
}

function inWords(traced: readonly Traced[], styles: Styles): string {
  const out: string[] = [];
  for (const { circuit, terminal, paths, signals } of traced) {
    const title = circuit.title === '' ? '' : `${visible(circuit.title)}: `;
    for (const path of paths)
      out.push(styles.strong(`${title}${visible(path.heading)}`), ...pathLines(circuit, path), '');
    for (const signal of signals) {
      const { heading, lines } = signalInWords(circuit, terminal, signal);
      out.push(styles.strong(`${title}${visible(heading)}`), ...lines, '');
    }
  }
  return `${out.join('\n').trimEnd()}\n`;
}

function pathLines(circuit: Circuit, { steps, blocked }: TracePath): string[] {
  const out = steps.map((step, index) => `  ${index + 1}. ${stepInWords(circuit, step)}`);
  if (blocked) {
    out.push(
      `  Stopped${blocked.part ? ` at ${visible(blocked.part)}` : ''}: ${visible(blocked.because)}.`,
    );
    return out;
  }
  if (steps.length === 0) return ['  Both are one junction: a wire joins them.'];
  const volts = steps.map((step) => step.volts ?? 0).reduce((sum, each) => sum + each, 0);
  if (steps.filter((step) => step.volts !== undefined).length > 1)
    out.push(`  In all ${inVolts(volts)} along the way.`);
  return out;
}

function stepInWords(circuit: Circuit, { part, from, to, because, volts }: TraceStep): string {
  const called = (id: string) => terminalName(id, circuit.partOfEnd.get(id));
  const title = circuit.partNamed.get(part)?.title;
  const name = title ? `${part} (${title})` : part;
  const way = `${name}, from ${called(from)} to ${called(to)}`;
  if (volts === undefined) return visible(`${way}: ${because}`);
  const amount = `, ${formatQuantity(volts, 'voltage')}`;
  const reason = because.endsWith(amount) ? because.slice(0, -amount.length) : because;
  return visible(`${way}: ${reason}; ${inVolts(volts)}`);
}

function signalInWords(circuit: Circuit, terminal: string, signal: SignalTold) {
  const called = (id: string) => terminalName(id, circuit.partOfEnd.get(id));
  const { kind, frequency, to, found, steps, impedance } = signal;
  const home = to === undefined ? '' : ` to ${called(to)}`;
  const heading = `${kind} from ${called(terminal)}${home}, at ${formatQuantity(frequency, 'frequency')}`;
  if (!found) return { heading, lines: ['  No wired part leads it home.'] };
  if (steps.length === 0)
    return { heading, lines: ['  Both are one junction, or next to it: nothing lies between.'] };
  const lines = steps.map(({ part, from, to: end, because }, index) => {
    const title = circuit.partNamed.get(part)?.title;
    const name = title ? `${part} (${title})` : part;
    return visible(`  ${index + 1}. ${name}, from ${called(from)} to ${called(end)}: ${because}`);
  });
  const all = `  In all about ${formatQuantity(impedance, 'resistance')}, sizes added up.`;
  return { heading, lines: steps.length > 1 ? [...lines, all] : lines };
}

function inVolts(volts: number): string {
  const amount = formatQuantity(Math.abs(volts), 'voltage');
  if (Math.abs(volts) < 1e-9) return 'nothing is gained or lost';
  return volts > 0 ? `gains ${amount}` : `loses ${amount}`;
}
