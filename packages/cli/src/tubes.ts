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

/** `+1.2 %`, or `−1.2 %`. */
function percentOff(excess: number): string {
  return `${excess < 0 ? '\u2212' : '+'}${Math.abs(100 * excess).toFixed(1)} %`;
}

/** What is printed, what the law makes of it, and how far that is off; empty where not known. */
function besideThePrint(
  published: number | undefined,
  excess: number | undefined,
  quantity: 'current' | 'transconductance',
): string[] {
  const words = (value: number) =>
    quantity === 'transconductance'
      ? formatQuantity(value * 1e6, 'ratio')
      : formatQuantity(value, 'current');
  if (published === undefined) return ['', '', ''];
  if (excess === undefined) return [words(published), '', ''];
  return [words(published), words(published * (1 + excess)), percentOff(excess)];
}

function linesOf(type: TubeType): string[] {
  const law = tubeLawOf(type, new WeakMap());
  const fitted = new Map(law.fitted.map((each) => [each.point, each]));
  const volts = (value: number | undefined) =>
    value === undefined ? '' : formatQuantity(value, 'voltage');
  const row = (point: TubePoint): string[] => {
    const { plateVolts, screenVolts, gridVolts, plateAmperes, transconductance } = point;
    const fit = fitted.get(point);
    const [current, reckoned, off] = besideThePrint(plateAmperes, fit?.excess, 'current');
    return [
      volts(plateVolts),
      volts(screenVolts),
      volts(gridVolts),
      current ?? '',
      reckoned ?? '',
      law.leftOut.includes(point) ? 'left out' : (off ?? ''),
      ...besideThePrint(transconductance, fit?.slopeExcess, 'transconductance'),
    ];
  };
  const hasSlopes = type.points.some(({ transconductance }) => transconductance !== undefined);
  const heading = [
    ...['plate', 'screen', 'grid', 'current', 'reckoned', 'off'],
    ...(hasSlopes ? ['micromhos', 'reckoned', 'off'] : []),
  ];
  const shown = (cells: readonly string[]) => {
    const wanted = cells.slice(0, heading.length);
    return type.screen ? wanted : wanted.toSpliced(1, 1);
  };
  const sources = [...new Set(type.points.flatMap(({ source }) => source ?? []))];
  return [
    `${type.name}${type.title ? `, ${type.title}` : ''}`,
    ...(type.points.length > 0
      ? tableOf(
          shown(heading),
          type.points.map((point) => shown(row(point))),
        )
      : ['  no published points']),
    ...sources.map((source) => `  ${source}`),
  ];
}
