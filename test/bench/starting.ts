import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { figure, quartilesInTurns, type Ratio, under, wallClock } from './measuring.ts';

/** What the tool may take to start and check one example, against a bare node. */
const LIMIT = 3;

/** The tool on one example against a bare node, in turns. */
export function starting(): readonly Ratio[] {
  const example = 'examples/five-tube-trf.receiver';
  readFileSync(example);
  const run = (command: string, ...args: readonly string[]) => ({
    often: 1,
    work: () => {
      const { status } = spawnSync(command, [...args], { stdio: 'ignore' });
      // What does not run is not quick.
      if (status !== 0) throw new Error(`${command} ${args.join(' ')} ended with ${status}`);
    },
  });
  const node = process.execPath;
  const times = quartilesInTurns(
    21,
    {
      'node -e 0': run(node, '-e', '0'),
      'dist/setwright.cjs check': run('dist/setwright.cjs', 'check', example),
      'node dist/setwright.cjs check': run(node, 'dist/setwright.cjs', 'check', example),
    },
    wallClock,
  );
  const bare = times['node -e 0'];
  console.log(`\nStarting, on ${example} (milliseconds; lower quartiles of 21 in turns)`);
  for (const [name, time] of Object.entries(times))
    console.log(`  ${name.padEnd(32)} ${figure(time, 0)}  ${(time / bare).toFixed(2)} times`);
  return [
    under(
      '`setwright check` as a command, against `node -e 0`',
      times['dist/setwright.cjs check'] / bare,
      LIMIT,
    ),
  ];
}
