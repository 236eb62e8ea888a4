import { type TunedCircuit, tunedAt } from '@setwright/analysis';

/**
 * No tuned circuit of the time at work has more than about this Q: forms, covering, shields and
 * the tubes on it take the rest. Common practice.
 */
const MOST_WORKING_Q = 80;

/**
 * Half of a circuit's width between half-power points at a frequency in hertz, as a share of it,
 * loaded as the text tells and never narrower than a circuit at work is.
 */
export function halfWidth(tuned: TunedCircuit, frequency: number): number {
  const { loadedQ } = tunedAt(tuned, frequency);
  return 1 / (2 * Math.min(loadedQ.value ?? MOST_WORKING_Q, MOST_WORKING_Q));
}
