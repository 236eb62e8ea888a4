import type { Settings, SettingsOn } from '@setwright/circuit';
import type { ControlStand, Failure } from '../direct-current.ts';
import type { TubeConductances } from '../tube-at-work.ts';

/** A tube's figures that a small signal goes by. */
export interface SignalTube {
  readonly tube: string;
  readonly conductances: TubeConductances;
  /** Siemens; undefined where its law is not known. */
  readonly transconductance: { readonly value: number } | undefined;
  readonly filamentVolts: { readonly value: number } | undefined;
  readonly filamentAmperes: { readonly value: number } | undefined;
  /** Bend of grid and plate current by the grid's volts, amperes per volt squared, where known. */
  readonly curvatures?: { readonly grid: number; readonly plate: number };
}

/** What of a state of rest a small signal goes by; an operating point has all of it. */
export interface SignalPoint {
  readonly converged: boolean;
  readonly failures: readonly Failure[];
  readonly settings: Settings | SettingsOn;
  readonly controls: readonly ControlStand[];
  readonly tubes: readonly SignalTube[];
  voltage(terminal: string, reference: string): number | undefined;
}
