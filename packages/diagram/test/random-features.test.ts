import type { Circuit, Part } from '@setwright/circuit';
import { beforeAll, expect, it } from 'vitest';
import { randomReceiver } from '../../../test/support/random-receiver.ts';
import { circuitOf } from './examples.ts';

/*
 * The drawings by chance prove only what the receivers by chance hold: so they are asked for every
 * way of wiring a set that the drawing has a cell for. These are the seeds that a run draws.
 */
let circuits: readonly Circuit[] = [];
beforeAll(() => {
  circuits = Array.from({ length: 150 }, (_, at) => circuitOf(randomReceiver(at + 1)));
});

const ofKind = ({ parts }: Circuit, kind: Part['kind']): Part[] =>
  parts.filter((part) => part.kind === kind);
const netOf = (part: Part, end: string): number | undefined =>
  part.ends.find(({ name }) => name === end)?.junction;
const netsOf = ({ ends }: Part): number[] => ends.map(({ junction }) => junction);
const windings = (circuit: Circuit) => ofKind(circuit, 'winding');
const tubes = (circuit: Circuit) => ofKind(circuit, 'tube');
const lies = (part: Part, from: number | undefined, to: number | undefined): boolean =>
  from !== undefined &&
  to !== undefined &&
  netsOf(part).includes(from) &&
  netsOf(part).includes(to);

const features: Readonly<Record<string, (circuit: Circuit) => boolean>> = {
  'a selector on the taps of a winding': (circuit) =>
    ofKind(circuit, 'selector').some(({ contacts }) =>
      contacts.some(({ from, to }) => `${from}${to}`.includes('.tap')),
    ),
  'a tickler': (circuit) => windings(circuit).some(({ name }) => name.endsWith('.tickler')),
  'a winding that turns within another': (circuit) =>
    windings(circuit).some(({ setting }) => setting !== undefined),
  'a variometer': (circuit) => ofKind(circuit, 'variometer').length > 0,
  'a centre tap': (circuit) =>
    windings(circuit).some(({ taps }) => taps.some(({ end }) => end === 'centre')),
  'two tubes in push-pull': (circuit) =>
    windings(circuit).some((winding) => {
      const [start, finish] = [netOf(winding, 'start'), netOf(winding, 'finish')];
      const has = (net: number | undefined) =>
        tubes(circuit).some((tube) => netOf(tube, 'grid') === net);
      return start !== undefined && start !== finish && has(start) && has(finish);
    }),
  'a choke in a plate lead': (circuit) =>
    ofKind(circuit, 'choke').some((choke) =>
      tubes(circuit).some((tube) => netsOf(choke).includes(netOf(tube, 'plate') ?? -1)),
    ),
  'a potentiometer': (circuit) => ofKind(circuit, 'potentiometer').length > 0,
  'a jack that a signal is led through': (circuit) =>
    ofKind(circuit, 'jack').some(({ companions }) => companions.length > 0),
  'a crystal': (circuit) => ofKind(circuit, 'crystal').length > 0,
  'a loop': (circuit) => ofKind(circuit, 'loop').length > 0,
  'a screen-grid tube': (circuit) =>
    tubes(circuit).some((tube) => netOf(tube, 'screen') !== undefined),
  'a pentode': (circuit) => tubes(circuit).some(({ typeName }) => typeName === '33'),
  'a tube with a cathode': (circuit) =>
    tubes(circuit).some((tube) => netOf(tube, 'cathode') !== undefined),
  'a lamp': (circuit) => ofKind(circuit, 'lamp').length > 0,
  'a fuse': (circuit) => ofKind(circuit, 'fuse').length > 0,
  'a rheostat for one tube': (circuit) =>
    ofKind(circuit, 'rheostat').some((part) => heated(circuit, part) === 1),
  'a rheostat for a group': (circuit) =>
    ofKind(circuit, 'rheostat').some((part) => heated(circuit, part) > 1),
  'a neutralizing condenser': (circuit) =>
    ofKind(circuit, 'condenser').some(({ words }) => words.has('neutralizing')),
  'a trimmer': (circuit) => ofKind(circuit, 'condenser').some(({ words }) => words.has('trimmer')),
  'resistance coupling': (circuit) =>
    tubes(circuit).some((tube) => {
      const plate = netOf(tube, 'plate');
      const loads = ofKind(circuit, 'resistor').some((part) => netsOf(part).includes(plate ?? -1));
      return (
        loads &&
        tubes(circuit).some((next) =>
          ofKind(circuit, 'condenser').some((part) => lies(part, plate, netOf(next, 'grid'))),
        )
      );
    }),
  'taps of an eliminator': (circuit) =>
    ofKind(circuit, 'eliminator').some(({ supplyTaps }) => supplyTaps.length > 2),
  'condensers on one shaft': (circuit) => circuit.gangs.length > 0,
  'a C battery': (circuit) =>
    ofKind(circuit, 'battery').some(({ supplyTaps }) => supplyTaps.some(({ end }) => end === 'C+')),
  'a transformer on iron and one in air': (circuit) =>
    new Set(ofKind(circuit, 'transformer').map(({ words }) => words.has('air'))).size === 2,
};

/** How many tubes a rheostat heats: those with an end of their filament on it. */
const heated = (circuit: Circuit, rheostat: Part): number =>
  tubes(circuit).filter((tube) =>
    ['filament+', 'filament-'].some((end) => {
      const net = netOf(tube, end);
      return net !== undefined && netsOf(rheostat).includes(net) && isHeater(circuit, net);
    }),
  ).length;

/** Not one of the battery's own terminals, on which all tubes are. */
const isHeater = (circuit: Circuit, net: number): boolean =>
  !circuit.parts.some(
    (part) => part.supplyTaps.length > 0 && part.ends.some(({ junction }) => junction === net),
  );

it.each(Object.entries(features))('%s is in some receiver by chance', (_name, has) => {
  expect(circuits.filter(has).length).toBeGreaterThan(0);
});
