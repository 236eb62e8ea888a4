import { tubeLawOf } from '@setwright/analysis';
import type { TubePoint, TubeType } from '@setwright/circuit';
import { builtInTubeTypes } from '@setwright/language';
import { tableOf } from '@setwright/report';
import { formatQuantity, nearest } from '@setwright/units';
import { type ExitCode, exitCodes } from './exit.ts';
import type { Streams } from './streams.ts';
import { sayWrong } from './troubles.ts';

/** `setwright tubes`: the library's types, their published points, and how the law fits them. */
export function tubes(written: string | undefined, streams: Streams): ExitCode {
  const types = builtInTubeTypes();
  const chosen =
    written === undefined
      ? [...types.values()]
      : [...types.values()].filter(({ name }) => name.toLowerCase() === written.toLowerCase());
  if (chosen.length === 0) {
    const likely = nearest(written ?? '', types.keys());
    sayWrong(
      streams,
      `The library has no tube type "${written}".`,
      likely.length > 0 ? `Did you mean ${likely.join(' or ')}?` : 'setwright tubes lists them.',
    );
    return exitCodes.trouble;
  }
  const lines = chosen.flatMap((type) => [...linesOf(type), '']);
  streams.out.write(`${[...lines, ...legend].join('\n')}\n`);
  return exitCodes.clean;
}

const legend = [
  'Reckoned by the three-halves-power law along the filament, fitted to the points of each type.',
  'A point marked "left out" disagrees with a later print at the same volts; both are named.',
];

function linesOf(type: TubeType): string[] {
  const law = tubeLawOf(type, new WeakMap());
  const off = new Map(law.fitted.map(({ point, excess }) => [point, excess]));
  const volts = (value: number | undefined) =>
    value === undefined ? '' : formatQuantity(value, 'voltage');
  const row = (point: TubePoint): string[] => {
    const { plateVolts, screenVolts, gridVolts, plateAmperes } = point;
    const excess = off.get(point);
    const reckoned =
      excess === undefined || plateAmperes === undefined ? undefined : plateAmperes * (1 + excess);
    return [
      volts(plateVolts),
      volts(screenVolts),
      volts(gridVolts),
      plateAmperes === undefined ? '' : formatQuantity(plateAmperes, 'current'),
      reckoned === undefined ? '' : formatQuantity(reckoned, 'current'),
      law.leftOut.includes(point)
        ? 'left out'
        : excess === undefined
          ? ''
          : `${excess < 0 ? '\u2212' : '+'}${Math.abs(100 * excess).toFixed(1)} %`,
    ];
  };
  const whole = ['plate', 'screen', 'grid', 'published', 'reckoned', 'off'];
  const shown = (cells: readonly string[]) => (type.screen ? cells : cells.toSpliced(1, 1));
  const sources = [...new Set(type.points.flatMap(({ source }) => source ?? []))];
  return [
    `${type.name}${type.title ? `, ${type.title}` : ''}`,
    ...(type.points.length > 0
      ? tableOf(
          shown(whole),
          type.points.map((point) => shown(row(point))),
        )
      : ['  no published points']),
    ...sources.map((source) => `  ${source}`),
  ];
}
