import type { End, Part } from './model.ts';

/** The end of a tube that its voltages are counted from. */
export function emitterOf(tube: Part): End | undefined {
  return (
    tube.ends.find((end) => end.name === 'cathode') ??
    tube.ends.find((end) => end.name === 'filament-')
  );
}
