import type { TubePoint, TubeType } from '@setwright/circuit';
import { nameOfFile } from '@setwright/language';
import type { UnitStyle } from '@setwright/report';
import { formatQuantity } from '@setwright/units';
import { plainWords } from '../../text/markdown.ts';
import type { Snapshot } from '../../text/snapshot.ts';
import { joined } from './part-hover.ts';

/** A tube type by its name: the text's own, else that of a file that it uses, or the library's. */
export function tubeTypeNamed({ file }: Snapshot, name: string): TubeType | undefined {
  return file.types.get(name);
}

/** What is published of a tube type: its ratings and points, with their sources. */
export function typeHover(type: TubeType, units: UnitStyle, { uri }: Snapshot): string {
  const { name, title, builtIn, source, place } = type;
  const home = place.file === uri ? 'this file' : nameOfFile(place.file);
  return joined([
    `**${plainWords(name)}**, ${plainWords(title ?? 'tube type')}${builtIn ? '' : `, described in ${plainWords(home)}`}`,
    ratings(type, units)
      .map((line) => `- ${plainWords(line)}`)
      .join('\n'),
    points(type.points, units),
    source === undefined ? '' : `Source: ${plainWords(source)}`,
  ]);
}

function ratings(type: TubeType, units: UnitStyle): readonly string[] {
  const { filamentVolts, filamentAmperes, heated, amplification, base, detector } = type;
  const volts = (value: number): string => formatQuantity(value, 'voltage', units);
  const kinds = [
    ...(type.soft ? ['gas detector'] : []),
    ...(type.screen ? ['screen grid'] : []),
    ...(type.pentode ? ['pentode'] : []),
  ];
  const filament = [
    ...(filamentVolts === undefined ? [] : [volts(filamentVolts)]),
    ...(filamentAmperes === undefined ? [] : [formatQuantity(filamentAmperes, 'current', units)]),
  ];
  const limits = [
    ...(type.plateLimit === undefined ? [] : [`plate ${volts(type.plateLimit)}`]),
    ...(type.screenLimit === undefined ? [] : [`screen ${volts(type.screenLimit)}`]),
  ];
  return [
    ...(kinds.length > 0 ? [kinds.join(', ')] : []),
    ...(filament.length > 0 ? [`${heated ? 'heater' : 'filament'} ${filament.join(', ')}`] : []),
    ...(amplification === undefined ? [] : [`amplification factor ${amplification}`]),
    ...(base === undefined ? [] : [`base ${base}`]),
    ...(limits.length > 0 ? [`at most ${limits.join(', ')}`] : []),
    ...(detector?.returnTo === undefined
      ? []
      : [`as a detector its grid goes to ${detector.returnTo}`]),
  ];
}

function points(all: readonly TubePoint[], units: UnitStyle): string {
  if (all.length === 0) return 'No working point is published here.';
  const hasScreen = all.some(({ screenVolts }) => screenVolts !== undefined);
  const show = (value: number | undefined, dimension: 'voltage' | 'current' | 'resistance') =>
    value === undefined ? '' : formatQuantity(value, dimension, units);
  const row = (cells: readonly string[]): string => `| ${cells.map(plainWords).join(' | ')} |`;
  const heading = [
    'plate',
    ...(hasScreen ? ['screen'] : []),
    'grid',
    'current',
    'plate resistance',
    'source',
  ];
  return [
    row(heading),
    row(heading.map(() => '---')),
    ...all.map((point) =>
      row([
        show(point.plateVolts, 'voltage'),
        ...(hasScreen ? [show(point.screenVolts, 'voltage')] : []),
        show(point.gridVolts, 'voltage'),
        show(point.plateAmperes, 'current'),
        show(point.plateResistance, 'resistance'),
        point.source ?? '',
      ]),
    ),
  ].join('\n');
}
