import { spawn, spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { randomReceiver } from '../support/random-receiver.ts';
import { figure, over, processorOfChildren, type Ratio, under } from './measuring.ts';

/** What one run of the tool took. */
interface Run {
  /** Seconds of the clock on the wall. */
  readonly wall: number;
  /** Seconds of the processor, with all processes that it started; where the system tells. */
  readonly processor: number;
  /** The most that any of its processes held at a time, in megabytes; where the system tells. */
  readonly memory: number;
}

/** How many sets are checked: a smaller collection and a larger one. */
interface Sizes {
  readonly small: number;
  readonly large: number;
}
const usual: Sizes = { small: 100, large: 400 };
const thousands: Sizes = { small: 1000, large: 10_000 };

const tool = resolve('dist/setwright.cjs');
const canPin = spawnSync('taskset', ['-c', '0', 'true']).status === 0;

/**
 * Collections of sets by chance, checked by the tool as built: how time and memory grow with their
 * number, what a second core does and what a cache does.
 *
 * @param isLarge by the ten thousand, which takes minutes
 */
export async function collections(isLarge: boolean): Promise<readonly Ratio[]> {
  const { small, large } = isLarge ? thousands : usual;
  const folder = mkdtempSync(join(tmpdir(), 'setwright-bench-'));
  try {
    write(join(folder, 'small'), small);
    write(join(folder, 'large'), large);
    console.log(`\nCollections of ${small} and ${large} sets by chance (seconds; megabytes)`);
    console.log('                                    wall  processor   memory');
    const tell = async (what: string, ...args: string[]): Promise<Run> => {
      const run = await timed(folder, args, what.includes('one core'));
      console.log(
        `  ${what.padEnd(30)}${figure(run.wall, 2)}${figure(run.processor, 2).padStart(11)}${figure(run.memory, 0)}`,
      );
      return run;
    };
    const first = await tell(`${small}, two cores`, 'small', '--jobs', '2');
    const shared = isLarge ? 'small' : 'large';
    const sets = isLarge ? small : large;
    const one = await tell(`${sets}, one core`, shared, '--jobs', '1');
    const two = await tell(`${sets}, two cores`, shared, '--jobs', '2');
    const again = await tell(`${sets}, one core again`, shared, '--jobs', '1');
    const cold = await tell(`${large}, cache cold`, 'large', '--jobs', '2', '--cache', 'kept');
    const warm = await tell(`${large}, cache warm`, 'large', '--jobs', '2', '--cache', 'kept');
    const perSet = (run: Run, sets: number) => run.processor / sets;
    return [
      under(
        `checking a collection, per set, ${large} sets against ${small}`,
        perSet(cold, large) / perSet(first, small),
        1.3,
      ),
      under(`its memory, ${large} sets against ${small}`, cold.memory / first.memory, 1.5),
      over(
        `two cores on ${sets} sets, against one`,
        Math.min(one.wall, again.wall) / two.wall,
        // Each has to start, and to warm up by itself: of few sets that takes a good part.
        isLarge ? 1.7 : 1.4,
      ),
      over('a collection with its cache warm, against cold', cold.wall / warm.wall, 10),
    ];
  } finally {
    rmSync(folder, { recursive: true });
  }
}

function write(folder: string, count: number): void {
  mkdirSync(folder);
  for (let seed = 0; seed < count; seed += 1)
    writeFileSync(join(folder, `${String(seed).padStart(5, '0')}.receiver`), randomReceiver(seed));
}

/** Runs `setwright check`, and looks at its processes while it does. */
function timed(cwd: string, args: readonly string[], onOneCore: boolean): Promise<Run> {
  return new Promise((settle, reject) => {
    const before = processorOfChildren() ?? 0;
    const start = performance.now();
    const [program = '', ...words] = [
      // One process keeps a second core busy too: what clears memory away and compiles runs beside.
      ...(onOneCore && canPin ? ['taskset', '-c', '0'] : []),
      ...[process.execPath, tool, 'check', ...args],
    ];
    const child = spawn(program, words, { cwd, stdio: 'ignore' });
    let memory = 0;
    const look = setInterval(() => {
      if (child.pid !== undefined) memory = Math.max(memory, ...memoryBelow(child.pid));
    }, 50);
    child.on('close', (code) => {
      clearInterval(look);
      const wall = (performance.now() - start) / 1000;
      // Sets by chance have findings; anything else is no run at all.
      if (code !== 0 && code !== 1) reject(new Error(`check ended with ${code}`));
      else settle({ wall, processor: ((processorOfChildren() ?? 0) - before) / 1000, memory });
    });
  });
}

/** The most that a process and those below it have held until now, in megabytes. */
function memoryBelow(id: number): number[] {
  const [, kilobytes = '0'] = /VmHWM:\s+(\d+)/.exec(textOf(`/proc/${id}/status`)) ?? [];
  const below = threadsOf(id).flatMap((thread) =>
    textOf(`/proc/${id}/task/${thread}/children`)
      .split(' ')
      .filter((child) => child.trim() !== ''),
  );
  return [Number(kilobytes) / 1000, ...below.flatMap((child) => memoryBelow(Number(child)))];
}

function threadsOf(id: number): string[] {
  try {
    return readdirSync(`/proc/${id}/task`);
  } catch {
    return [];
  }
}

function textOf(file: string): string {
  try {
    return readFileSync(file, 'utf8');
  } catch {
    return '';
  }
}
