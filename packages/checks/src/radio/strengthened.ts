import type { OperatingPoint, TubeConductances } from '@setwright/analysis';

/**
 * How far the mutual conductance of a tube and the coupling of its windings together may be off
 * what is reckoned, either way: tubes of one type differ by a tenth and more, and where a winding
 * sits is rarely told to a hair. Common practice.
 */
export const FEEDBACK_ERROR = 1.25;

/**
 * Q of a usual coil of the time in its set: form, covering, wiring and cabinet counted, which the
 * wire's own losses leave out. Common practice.
 */
export const USUAL_QUALITY = 100;

/** Where grid and plate stand among the electrodes of a tube's conductances, and the cathode. */
const GRID = 0;
const PLATE = 1;
const REFERENCE = 3;

/**
 * An operating point whose tubes steer their plates by so many times as much: what a stronger or
 * weaker tube, a closer or looser coupling does alike to whether a tube oscillates.
 */
export function strengthened(point: OperatingPoint, times: number): OperatingPoint {
  return {
    ...point,
    tubes: point.tubes.map((tube) => ({
      ...tube,
      conductances: steeredBy(tube.conductances, times),
    })),
  };
}

function steeredBy({ electrodes, siemens }: TubeConductances, times: number): TubeConductances {
  const more = (times - 1) * (siemens[PLATE]?.[GRID] ?? 0);
  // Rows and columns must go on to sum to zero.
  const signs = new Map([
    [`${PLATE} ${GRID}`, more],
    [`${PLATE} ${REFERENCE}`, -more],
    [`${REFERENCE} ${GRID}`, -more],
    [`${REFERENCE} ${REFERENCE}`, more],
  ]);
  return {
    electrodes,
    siemens: siemens.map((row, at) =>
      row.map((value, column) => value + (signs.get(`${at} ${column}`) ?? 0)),
    ),
  };
}
