import { readFileSync } from 'node:fs';

/** A ratio that is held to, with what it came out at in this run. */
export interface Ratio {
  readonly what: string;
  readonly ratio: number;
  /** What is wanted, in words. */
  readonly wanted: string;
  readonly isMet: boolean;
}

/** A ratio that is to stay under a limit. */
export function under(what: string, ratio: number, limit: number): Ratio {
  return { what, ratio, wanted: `under ${limit}`, isMet: ratio < limit };
}

/** A ratio that is to be over a limit. */
export function over(what: string, ratio: number, limit: number): Ratio {
  return { what, ratio, wanted: `over ${limit}`, isMet: ratio > limit };
}

/** The ratios of a run by the topics that gave them, as a table that DEVELOPERS.md can take over. */
export function printRatios(ratios: Readonly<Record<string, readonly Ratio[]>>): void {
  const rows = Object.entries(ratios).flatMap(([topic, each]) =>
    each.map(({ what, ratio, wanted, isMet }) => [
      topic,
      what,
      ratio.toPrecision(3),
      isMet ? wanted : `${wanted}: not met`,
    ]),
  );
  if (rows.length === 0) return;
  const table = [['topic', 'what is held to', 'this run', 'wanted'], ...rows];
  const widths = [0, 1, 2, 3].map((column) =>
    Math.max(...table.map((cells) => cells[column]?.length ?? 0)),
  );
  const line = (cells: readonly string[]) =>
    `| ${cells.map((cell, column) => cell.padEnd(widths[column] ?? 0)).join(' | ')} |`;
  const [head = [], ...body] = table;
  console.log(`\n${line(head)}\n${line(widths.map(() => '---'))}\n${body.map(line).join('\n')}`);
}

/** Milliseconds of a clock. */
type Clock = () => number;

/**
 * What this process has had of the processor: it stands still while others on a shared machine
 * have their turn, which the clock on the wall does not.
 */
export const processorClock: Clock = () => {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
};

export const wallClock: Clock = () => performance.now();

/**
 * What ended programs that this one started have had of the processor, and those that they
 * started, in steps of 10 ms; the clock on the wall where the system does not tell.
 */
export const clockOfChildren: Clock = () => processorOfChildren() ?? wallClock();

/** The same; `undefined` where the system does not tell. */
export function processorOfChildren(): number | undefined {
  try {
    const stat = readFileSync('/proc/self/stat', 'utf8');
    const fields = stat.slice(stat.lastIndexOf(')') + 2).split(' ');
    const MILLISECONDS_A_TICK = 10;
    return (Number(fields[13]) + Number(fields[14])) * MILLISECONDS_A_TICK;
  } catch {
    return undefined;
  }
}

/** Median of the times of several runs, in milliseconds, after one that does not count. */
export function median(runs: number, work: () => unknown): number {
  work();
  return atShare(
    Array.from({ length: runs }, () => timeOf(work, processorClock)),
    0.5,
  );
}

/** A piece of work, and how often it is done in every turn. */
export interface Work {
  readonly often: number;
  /** What is made ready before every time, and does not count. */
  prepare?(): void;
  work(): unknown;
}

/**
 * Times of several pieces of work, in milliseconds: done in turns, so that whatever else the
 * machine does falls on all of them alike, after two turns that do not count. Of all times of each
 * the lower quartile is taken, since what disturbs only ever adds to them.
 */
export function quartilesInTurns<T extends string>(
  turns: number,
  works: Readonly<Record<T, Work>>,
  clock = processorClock,
): Readonly<Record<T, number>> {
  const entries = Object.entries<Work>(works);
  const times = new Map(entries.map(([name]) => [name, [] as number[]]));
  for (let turn = -2; turn < turns; turn++)
    for (const [name, each] of entries)
      for (let run = 0; run < each.often; run++) {
        each.prepare?.();
        const time = timeOf(() => each.work(), clock);
        if (turn >= 0) times.get(name)?.push(time);
      }
  const quartiles = entries.map(([name]) => [name, atShare(times.get(name) ?? [], 0.25)]);
  return Object.fromEntries(quartiles) as Record<T, number>;
}

function timeOf(work: () => unknown, clock: Clock): number {
  const start = clock();
  work();
  return clock() - start;
}

function atShare(times: number[], share: number): number {
  return times.sort((a, b) => a - b)[Math.floor(share * times.length)] ?? 0;
}

/** A figure for a column. */
export const figure = (value: number, digits = 1) => value.toFixed(digits).padStart(9);
