import {
  type Circuit,
  type TracePath,
  type TraceStep,
  terminalName,
  traceDirectCurrent,
} from '@setwright/circuit';
import { readReceivers } from '@setwright/language';
import { formatQuantity } from '@setwright/units';
import { type ExitCode, exitCodes } from './exit.ts';
import { readSource } from './read-source.ts';
import { findSources } from './sources.ts';
import type { Streams } from './streams.ts';
import { type Styles, stylesFor } from './styles.ts';
import { terminalNamed } from './terminal-names.ts';
import { linesOf, positionAt } from './text-lines.ts';
import { sayTroubles, sayWrong } from './troubles.ts';
import { printableJson, visible } from './visible.ts';
import { linesListed, listed } from './words.ts';

export const traceFormats = ['text', 'json'] as const;

interface Traced {
  readonly circuit: Circuit;
  readonly terminal: string;
  readonly paths: readonly TracePath[];
}

/** `setwright trace`: where direct current goes from a terminal, and why each part passes it. */
export function trace(
  file: string,
  written: string,
  options: { readonly format: (typeof traceFormats)[number] },
  streams: Streams,
): ExitCode {
  const { sources, troubles } = findSources([file], streams.cwd);
  const [source, second] = sources;
  if (!source) {
    sayTroubles(troubles, streams);
    return exitCodes.trouble;
  }
  if (second) {
    sayWrong(streams, `${file} stands for ${sources.length} files.`, 'Name one of them.');
    return exitCodes.trouble;
  }
  const read = readSource(source);
  if ('cause' in read) {
    sayTroubles([read], streams);
    return exitCodes.trouble;
  }
  const { circuits } = readReceivers(read.text, source.path);
  const traced = circuits.flatMap((circuit): Traced | [] => {
    const named = terminalNamed(circuit, written);
    if (!('id' in named)) return [];
    return { circuit, terminal: named.id, paths: traceDirectCurrent(circuit, named.id) };
  });
  sayUnread(source.path, read.text, circuits, streams);
  if (traced.length === 0) {
    sayNotFound(written, circuits, streams);
    return exitCodes.trouble;
  }
  streams.out.write(
    options.format === 'json'
      ? inJson(source.path, traced)
      : inWords(traced, stylesFor(streams.out, streams.env)),
  );
  return exitCodes.clean;
}

function sayUnread(path: string, text: string, circuits: readonly Circuit[], streams: Streams) {
  const lines = linesOf(text);
  const unread = circuits.flatMap(({ unread }) =>
    unread.map((place) => positionAt(lines, place.start).line + 1),
  );
  if (unread.length === 0) return;
  streams.err.write(
    `setwright: ${visible(path)}: ${linesListed(unread)} cannot be read, so a path may be missing here.\n`,
  );
}

function sayNotFound(written: string, circuits: readonly Circuit[], streams: Streams) {
  if (circuits.length === 0) {
    sayWrong(streams, 'There is no receiver in this file.', 'Name the file of a set.');
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
    receivers: traced.map(({ circuit, terminal, paths }) => ({
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
    })),
  };
  return `${printableJson(report)}\n`;
}

function inWords(traced: readonly Traced[], styles: Styles): string {
  const out: string[] = [];
  for (const { circuit, paths } of traced) {
    for (const path of paths) {
      const title = circuit.title === '' ? '' : `${visible(circuit.title)}: `;
      out.push(styles.strong(`${title}${visible(path.heading)}`), ...pathLines(circuit, path), '');
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

function inVolts(volts: number): string {
  const amount = formatQuantity(Math.abs(volts), 'voltage');
  if (Math.abs(volts) < 1e-9) return 'nothing is gained or lost';
  return volts > 0 ? `gains ${amount}` : `loses ${amount}`;
}
