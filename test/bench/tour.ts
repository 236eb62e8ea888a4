import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { checkCircuit } from '@setwright/checks';
import { overlayOf, setAtWork, viewsOf } from '@setwright/diagram';
import { readReceivers } from '@setwright/language';
import { tourOf } from '@setwright/report';
import { figure, quartilesInTurns, type Ratio, under, wallClock } from './measuring.ts';

/** What the words of a tour cost, against the check of the same set; its drawing is told apart. */
export function tour(): Ratio[] {
  const file = 'examples/five-tube-trf.receiver';
  const text = readFileSync(file, 'utf8');
  const read = () => {
    const [circuit] = readReceivers(text, file).circuits;
    if (!circuit) throw new Error(`${file} holds no receiver`);
    return circuit;
  };
  const times = quartilesInTurns(7, {
    check: { often: 1, work: () => checkCircuit(read()) },
    tour: { often: 1, work: () => tourOf(read(), { overlayOf, setAtWork, viewsOf }) },
  });
  console.log('\nTour of the five-tube set, its text read each time (milliseconds)');
  console.log(`  check ${figure(times.check)}   tour ${figure(times.tour)}`);
  return [
    under('tour of the five-tube set, in times of its check', times.tour / times.check, 10),
    asCommand(file),
  ];
}

/** The same as commands, with their start: the whole page, its drawing too. */
function asCommand(file: string): Ratio {
  const run = (command: string) => ({
    often: 1,
    work: () => {
      const { status } = spawnSync('dist/setwright.cjs', [command, file], { stdio: 'ignore' });
      // What does not run is not quick.
      if (status !== 0) throw new Error(`setwright ${command} ended with ${status}`);
    },
  });
  const times = quartilesInTurns(
    5,
    { check: run('check'), tour: run('tour'), report: run('report') },
    wallClock,
  );
  console.log('  as commands, with their start');
  console.log(
    `  check ${figure(times.check, 0)}   tour ${figure(times.tour, 0)}   report ${figure(times.report, 0)}`,
  );
  return under('`setwright tour`, in times of `setwright check`', times.tour / times.check, 10);
}
