import { isSupply } from '@setwright/circuit';
import { safetyStep } from '../../tour/steps/safety.ts';
import { list, say } from '../cells.ts';
import type { SheetBlock, SheetSection } from '../sheet.ts';
import type { SheetGrounds } from '../sheet-grounds.ts';

/** Volts above which a supply can hurt. Common practice. */
const HURTING_VOLTS = 60;

/** What can hurt: first what the checks call an error, which costs tubes or worse. */
export function safety(grounds: SheetGrounds): SheetSection | undefined {
  const { circuit } = grounds;
  const supplies = circuit.parts.filter(isSupply);
  const errors = grounds.findings.filter(({ severity }) => severity === 'error');
  const items = [
    ...errors.map(({ message }) => `Do not switch it on before this is settled: ${message}`),
    ...safetyStep(grounds).sentences,
  ];
  if (supplies.some(({ words, kind }) => kind === 'battery' && words.has('storage')))
    items.push(
      'A storage battery gives hundreds of amperes into a short, its gas explodes and its acid burns: put a fuse at its terminal, let in air, wear glasses.',
    );
  if (supplies.some(({ supplyTaps }) => supplyTaps.some(({ volts = 0 }) => volts > HURTING_VOLTS)))
    items.push(
      'One hand in the pocket, no phones on the head, B off and condensers discharged before anything is touched.',
    );
  if (supplies.length > 0)
    items.push(
      'Local codes and licensed practice go before anything that is said here, above all where the mains come in.',
    );
  if (items.length === 0) return undefined;
  const blocks: SheetBlock[] = [list(items)];
  return { id: 'cautions', heading: 'Cautions', blocks };
}

/** How it is switched on and off: the order that costs no tube. Common practice. */
export function handling(grounds: SheetGrounds): SheetSection | undefined {
  const { circuit } = grounds;
  const tubes = circuit.parts.filter(({ kind }) => kind === 'tube');
  const rheostats = circuit.parts.filter(({ kind }) => kind === 'rheostat');
  const has = (letter: string): boolean =>
    circuit.parts.some(
      (part) => isSupply(part) && part.supplyTaps.some(({ end }) => end.startsWith(letter)),
    );
  if (tubes.length === 0) return undefined;
  const hasSwitch = circuit.parts.some(({ kind }) => kind === 'switch');
  const names = rheostats.map(({ name }) => name).join(', ');
  const turnedDown =
    rheostats.length > 0
      ? `Turn ${names} to most resistance. `
      : hasSwitch
        ? 'The switch stands off. '
        : '';
  const on = hasSwitch ? ', switch on,' : '';
  const steps = [
    `B leads off. ${turnedDown}Join A, through its fuse, and measure at each socket before a tube goes in.`,
    ...(has('C') ? ['Join C. See that it is the right way round before B goes on.'] : []),
    rheostats.length > 0
      ? `Tubes in${on} and bring the filaments up to the volts of the bench chart, never over.`
      : `Tubes in${on} and measure the filaments against the bench chart.`,
    ...(has('B')
      ? [
          'Join B through a lamp or a fuse smaller than one filament’s current, the lowest tap first, with a milliammeter in B−. More than the chart says: off at once.',
        ]
      : []),
    ...(rheostats.length > 0
      ? [
          `${hasSwitch ? 'Switch off before a tube is lifted, or turn its rheostat down' : 'Turn its rheostat down before a tube is lifted'}: lifting one raises the others on it.`,
        ]
      : []),
    ...(has('B')
      ? [
          `To end: B off first,${hasSwitch ? ' then the switch,' : ''} then A${has('C') ? ' and C' : ''}.`,
        ]
      : []),
  ];
  return {
    id: 'handling',
    heading: 'Switching on',
    blocks: [list(steps, true), say('Common practice.', 'note')],
  };
}
