import { describe, expect, it } from 'vitest';
import { operatingPoint } from '../../src/operating-point.ts';
import { alignedAt, tunedSet } from '../../src/small-signal/aligned-at.ts';
import {
  type Knobs,
  knobbedNetwork,
  matricesWith,
} from '../../src/small-signal/knobbed-network.ts';
import { exactModes, modelModes } from '../../src/small-signal/modes-off.ts';
import { shaftsOf } from '../../src/small-signal/shafts.ts';
import { smallSignal } from '../../src/small-signal/small-signal.ts';
import { stationModel } from '../../src/small-signal/station-model.ts';
import { feedbackPiece, gridPiece, socketPiece } from '../../src/small-signal/tube-pieces.ts';
import { tunedSystem } from '../../src/small-signal/tuned-system.ts';
import { threeDialSet } from './three-dial-set.ts';

const STATION = 1e6;
const TUBES = ['V1', 'V2'];
const OFFSETS = [
  [0, 0, 0],
  [-0.01, -0.01, -0.004],
  [0.02, -0.01, 0.035],
];

const circuit = threeDialSet({});
const set = smallSignal(circuit, operatingPoint(circuit), { openGrids: true });
const tuned = tunedSet(set);
const shafts = shaftsOf(tuned);
const leads = TUBES.map(gridPiece);
const capacities = [...TUBES.map(feedbackPiece), ...TUBES.map(socketPiece)];

const inGrids = (ohms: number, mmfd: number): Knobs => ({
  ohms: new Map(leads.map((lead) => [lead, ohms])),
  farads: new Map(capacities.map((piece) => [piece, mmfd * 1e-12])),
});

describe('resistances and capacities put to a set', () => {
  it.each([
    ['nothing', inGrids(0, 0)],
    ['800 ohms in each grid', inGrids(800, 0)],
    ['800 ohms and 2 mmfd', inGrids(800, 2)],
    ['2 mmfd taken off', inGrids(0, -2)],
  ])('act on its modes as in the whole equations: %s', (_name, knobs) => {
    const alignment = alignedAt(set, STATION, knobs.farads, tuned);
    const at = { tuned, shafts, alignment };
    const network = knobbedNetwork(set.system, tuned.condensers, new Map(), leads, capacities);
    const model = stationModel(network.left.size, matricesWith(network, knobs), STATION)!;
    const quick = modelModes(at, network.left, model);
    const exact = exactModes(at, (tuning) =>
      tunedSystem(set.system, new Map([...tuning, ...knobs.farads]), knobs.ohms),
    );
    for (const offsets of OFFSETS) {
      const [one, other] = [quick(offsets)!, exact(offsets)!];
      const off = Math.hypot(one.growth - other.growth, one.radians - other.radians);
      expect(off / other.radians).toBeLessThan(2e-5);
    }
  });

  it('change its modes at all', () => {
    const growth = [inGrids(0, 0), inGrids(800, 0), inGrids(0, -2)].map((knobs) => {
      const alignment = alignedAt(set, STATION, knobs.farads, tuned);
      const exact = exactModes({ tuned, shafts, alignment }, (tuning) =>
        tunedSystem(set.system, new Map([...tuning, ...knobs.farads]), knobs.ohms),
      );
      return exact([0, 0, 0])!.growth;
    });
    expect(growth[1]).toBeLessThan(growth[0]!);
    expect(growth[2]).toBeLessThan(growth[0]!);
  });
});
