import { operatingPoint } from '@setwright/analysis';
import { asOn, type Circuit, type TracePath, type TraceStep } from '@setwright/circuit';
import { formatQuantity } from '@setwright/units';

/**
 * The same paths with the ohms at which controls come to stand that the text does not set: a
 * rheostat that is all in gives another bias than one that is turned for the rated volts. Never
 * throws.
 */
export function withStands(circuit: Circuit, paths: readonly TracePath[]): readonly TracePath[] {
  const isUnset = ({ part: name, ohms }: TraceStep): boolean => {
    const part = circuit.partNamed.get(name);
    return part?.kind === 'rheostat' && part.setting === undefined && ohms !== undefined;
  };
  if (!paths.some(({ steps }) => steps.some(isUnset))) return paths;
  const { controls } = operatingPoint(circuit, asOn(circuit).settings);
  const standOf = new Map(controls.map((stand) => [stand.part, stand] as const));
  return paths.map((path) => ({
    ...path,
    steps: path.steps.map((step): TraceStep => {
      const stand = standOf.get(step.part);
      if (!isUnset(step) || !stand || step.ohms === undefined) return step;
      const all = formatQuantity(step.ohms, 'resistance');
      const now = formatQuantity(stand.ohms, 'resistance', 'period', 2);
      const why = stand.outcome === 'rated' ? ', at which its tubes get their rated volts' : '';
      const because = step.because.endsWith(`, ${all}`)
        ? step.because.slice(0, -all.length - 2)
        : step.because;
      return { ...step, ohms: stand.ohms, because: `${because}, ${now} of its ${all}${why}` };
    }),
  }));
}
