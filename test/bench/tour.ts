import { readFileSync } from 'node:fs';
import { checkCircuit } from '@setwright/checks';
import { overlayOf, viewsOf } from '@setwright/diagram';
import { readReceivers } from '@setwright/language';
import { tourOf } from '@setwright/report';
import { figure, quartilesInTurns, type Ratio, under } from './measuring.ts';

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
    tour: { often: 1, work: () => tourOf(read(), { overlayOf, viewsOf }) },
  });
  console.log('\nTour of the five-tube set, its text read each time (milliseconds)');
  console.log(`  check ${figure(times.check)}   tour ${figure(times.tour)}`);
  return [under('tour of the five-tube set, in times of its check', times.tour / times.check, 10)];
}
