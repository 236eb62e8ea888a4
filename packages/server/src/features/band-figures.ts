import {
  operatingPoint,
  type Response,
  response,
  type Stability,
  stability,
  tunedCircuits,
} from '@setwright/analysis';
import { asOn, type Circuit } from '@setwright/circuit';
import { bandOf } from '@setwright/report';

/** What a set makes of a signal at the ends and in the middle of its band. */
export interface BandFigures {
  readonly response: Response;
  readonly stability: Stability;
}

/**
 * Gain and stability at the ends and in the middle of a set's band, for the lenses of its stages.
 * Undefined for a set that tunes nothing.
 */
export function bandFigures(circuit: Circuit): BandFigures | undefined {
  const { settings } = asOn(circuit);
  const band = bandOf(circuit, tunedCircuits(circuit, settings));
  if (!band) return undefined;
  const { low, high } = band;
  const stations = [...new Set([low, Math.sqrt(low * high), high])];
  const point = operatingPoint(circuit, settings);
  return {
    response: response(circuit, point, { stations }),
    stability: stability(circuit, point, { stations }),
  };
}
