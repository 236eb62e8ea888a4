import { spawnSync } from 'node:child_process';
import { clockOfChildren, figure, quartilesInTurns, type Work } from './measuring.ts';

const set = 'examples/five-tube-trf.receiver';

/** Every command that works on a set, with what it is called with. */
const calls: Readonly<Record<string, readonly string[]>> = {
  check: [set],
  values: [set],
  dials: [set],
  response: [set],
  bench: [set],
  faults: [set],
  suspects: [set],
  trace: [set, 'V3.grid'],
  draw: [set],
  tour: [set],
  report: [set],
  compare: [
    'examples/at-work/storm-glass-as-copied.receiver',
    'examples/at-work/storm-glass.receiver',
  ],
  describe: [set],
  format: ['--stdout', set],
};

/** Commands that are also measured as they start where there is no picture to start from. */
const withoutPicture = ['check', 'draw', 'tour', 'report'];

/** Seconds of the processor that every command takes as a program, its start counted. */
export function commands(): void {
  const run = (program: string, name: string, args: readonly string[]): Work => ({
    often: 1,
    work: () => {
      const { status } = spawnSync(process.execPath, [program, name, ...args], { stdio: 'ignore' });
      // 1 is findings or differences; what does not run is not quick.
      if (status !== 0 && status !== 1) throw new Error(`setwright ${name} ended with ${status}`);
    },
  });
  const works = Object.entries(calls).flatMap(([name, args]): [string, Work][] => [
    [name, run('dist/setwright.cjs', name, args)],
    ...(withoutPicture.includes(name)
      ? [[`${name}, without`, run('dist/setwright-main.cjs', name, args)] as [string, Work]]
      : []),
  ]);
  const times = quartilesInTurns(5, Object.fromEntries(works), clockOfChildren);
  console.log(
    '\nCommands on the five-tube set, compare on the Storm Glass (seconds of the processor; lower quartiles of 5)',
  );
  console.log('               from the picture    without');
  for (const name of Object.keys(calls)) {
    const [from, without] = [times[name], times[`${name}, without`]];
    const seconds = (time: number | undefined) =>
      time === undefined ? '' : figure(time / 1000, 2);
    console.log(`  ${name.padEnd(20)}${seconds(from)}${seconds(without)}`.trimEnd());
  }
}
