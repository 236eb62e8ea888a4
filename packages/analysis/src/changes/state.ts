import { type Device, type DeviceState, deviceState } from './devices.ts';

/**
 * A set at rest as a linear network with bending devices in it: the volts of its points, what an
 * ampere pushed into each does to all of them, and the devices as they stand there.
 */
export interface State {
  /** Number of points. */
  readonly size: number;
  readonly volts: Float64Array;
  /**
   * Transfer resistances, ohms: row by row the volts of a point by amperes pushed into each. Zero
   * for the points that volts are counted from.
   */
  readonly transfer: Float64Array;
  readonly devices: readonly PlacedDevice[];
  /** The points that devices stand on. */
  readonly ports: Int32Array;
}

/** A device with its ports, and its currents at the state's volts. */
export interface PlacedDevice {
  readonly device: Device;
  /** Index into the ports for each of its points, -1 for one it has not got. */
  readonly places: Int32Array;
  readonly rest: DeviceState;
}

/** A branch laid beside the rest: `by` times its volts and `fixed` is `ohms` times its amperes. */
export interface Branch {
  readonly from: number;
  readonly to: number;
  readonly ohms: number;
  readonly by: number;
  readonly fixed: number;
}

/** A state at these volts with all devices as they are. */
export function stateAt(
  volts: Float64Array,
  transfer: Float64Array,
  devices: readonly Device[],
): State {
  const size = volts.length;
  const portOf = new Int32Array(size).fill(-1);
  const ports: number[] = [];
  for (const { points } of devices) {
    for (const point of points) {
      if (point < 0 || portOf[point] !== -1) continue;
      portOf[point] = ports.length;
      ports.push(point);
    }
  }
  const placed = devices.map((device) => {
    const rest = deviceState(device.points.length);
    device.reckon(voltsOf(device, volts), rest);
    const places = Int32Array.from(device.points, (at) => (at < 0 ? -1 : (portOf[at] as number)));
    return { device, places, rest };
  });
  return { size, volts, transfer, devices: placed, ports: Int32Array.from(ports) };
}

/** Volts at a device's points; 0 for one it has not got. */
function voltsOf({ points }: Device, volts: Float64Array): Float64Array {
  const own = new Float64Array(points.length);
  for (let at = 0; at < own.length; at++) {
    const point = points[at] as number;
    if (point >= 0) own[at] = volts[point] as number;
  }
  return own;
}
