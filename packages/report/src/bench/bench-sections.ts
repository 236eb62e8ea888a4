import { type BenchChart, calledSo, type Reading, shownAs } from '@setwright/bench';
import { type Circuit, isSupply } from '@setwright/circuit';
import type { UnitStyle } from '../values/quantities.ts';

/** Readings that belong together, under a heading. */
export interface BenchSection {
  readonly heading: string;
  readonly readings: readonly Reading[];
}

/** A chart's readings as they are taken: what was read, batteries, tubes stage by stage, cold. */
export function benchSections({ circuit, readings }: BenchChart): readonly BenchSection[] {
  const taken = readings.filter(({ read }) => read !== undefined);
  const usual = readings.filter(({ read }) => read === undefined);
  const on = usual.filter(({ state }) => state === 'on');
  const cold = usual.filter(({ state }) => state === 'cold');
  const isAtTap = ({ at, across }: Reading): boolean => {
    const part = circuit.partOfEnd.get(at);
    return across === undefined && part !== undefined && isSupply(part);
  };
  const off = circuit.parts.some(isSupply) ? 'Batteries off, tubes out: ' : 'Ohms: ';
  const stageOf = ({ at }: Reading): string | undefined => circuit.partOfEnd.get(at)?.stage;
  const inSet = on.filter((reading) => !isAtTap(reading));
  const sections: BenchSection[] = [
    { heading: 'What was read', readings: taken },
    { heading: 'Set on: batteries', readings: on.filter(isAtTap) },
    {
      heading: 'Set on: filament leads and what is in no stage',
      readings: inSet.filter((reading) => stageOf(reading) === undefined),
    },
    ...circuit.stages.map(({ name, title }) => ({
      heading: `Set on: ${name}${title ? `, ${title}` : ''}`,
      readings: inSet.filter((reading) => stageOf(reading) === name),
    })),
    {
      heading: `${off}each part by itself, one end lifted`,
      readings: cold.filter(({ lifted }) => lifted),
    },
    {
      heading: `${off}in the set`,
      readings: cold.filter(({ lifted }) => !lifted),
    },
  ];
  return sections.filter(({ readings: own }) => own.length > 0);
}

/** Where the probes go: `V1.plate`, `T1.primary`, `B+67 to V1.plate`. */
export function probeWords(circuit: Circuit, reading: Reading): string {
  const { at, to, across, lifted, state, quantity } = reading;
  if (across !== undefined) {
    const filament = circuit.partNamed.get(across)?.kind === 'tube' ? ' filament' : '';
    return lifted && state === 'on' ? `${across} lifted` : `${across}${filament}`;
  }
  const probe = calledSo(circuit, at);
  if (quantity === 'current') return `${probe} lead`;
  // Without a word a tube is read against its own filament, a tap against its battery's zero.
  const owner = circuit.partOfEnd.get(at);
  const other = circuit.partOfEnd.get(to ?? '');
  const isUsual = state === 'on' && owner !== undefined && owner === other;
  return isUsual || to === undefined ? probe : `${probe} to ${calledSo(circuit, to)}`;
}

/** A value for people. */
export function amountText(value: number, reading: Reading, style: UnitStyle): string {
  return shownAs(value, reading, style);
}

/** The band for people: `60.1 V to 71.5 V`, `above 10 megohms`. */
export function bandText({ expected, ...reading }: Reading, style: UnitStyle): string {
  if (!expected) return '–';
  const text = (value: number) => amountText(value, { expected, ...reading }, style);
  if (!Number.isFinite(expected.high)) return `above ${text(expected.low)}`;
  return `${text(expected.low)} to ${text(expected.high)}`;
}

/** What is to be said of a reading that was taken. */
export function verdictText({ expected, read, inRange }: Reading): string {
  if (read === undefined) return '';
  if (inRange === undefined || !expected) return 'nothing to hold it against';
  if (inRange) return 'as expected';
  return read < expected.low ? 'TOO LOW' : 'TOO HIGH';
}

/** The full scale that it is read on. */
export function scaleText(reading: Reading, style: UnitStyle): string {
  return reading.scale === undefined ? '' : amountText(reading.scale, reading, style);
}
