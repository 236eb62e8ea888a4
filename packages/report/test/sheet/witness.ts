import { coilMatrix, operatingPoint, readingAtFrequency } from '@setwright/analysis';
import { type FaultTable, faultsOf, faultTable } from '@setwright/bench';
import type { Circuit } from '@setwright/circuit';
import { dialColumns } from '../../src/dials/dial-readings.ts';
import { responseOf, type SetResponse } from '../../src/response/response-of.ts';
import type { SheetNumber } from '../../src/sheet/sheet.ts';
import { valuesOf } from '../../src/values/values-of.ts';
import { asked as askedOfTour, type Witness } from '../tour/proofs.ts';

/** A set, and what the engine says of it, asked afresh and not by way of the sheet. */
export interface SheetWitness {
  readonly tour: Witness;
  readonly response: SetResponse;
  readonly faults: FaultTable;
}

export function sheetWitness(circuit: Circuit): SheetWitness {
  const [bench] = circuit.benches;
  const response = responseOf(circuit);
  const common = faultsOf(circuit).filter(({ prior }) => prior === 'very common');
  const faults = faultTable(circuit, { bench }, common);
  const values = valuesOf(circuit, 'period', false);
  const point = operatingPoint(circuit);
  return {
    tour: { circuit, values, response, supposed: faults, point, gains: [] },
    response,
    faults,
  };
}

/** What the engine says that a number is, in SI units. */
export function askedAgain(witness: SheetWitness, number: SheetNumber): number | undefined {
  const { tour, response, faults } = witness;
  const { circuit } = tour;
  const { source } = number;
  const part = (name: string) => circuit.partNamed.get(name);
  switch (source.from) {
    case 'make':
      return part(source.part)?.winding?.[source.what]?.value;
    case 'wound':
      return wound(circuit, source.part, source.what);
    case 'tap':
      return part(source.supply)?.supplyTaps.find(({ end }) => end === source.tap)?.volts;
    case 'tube-type':
      return part(source.tube)?.tubeType?.[source.what];
    case 'station': {
      const heard = response.stations.find(
        ({ heard: each }) => each.frequency === source.at,
      )?.heard;
      if (source.what === 'gain')
        return heard?.stages?.find(({ tube }) => tube === source.tube)?.gain;
      return source.what === 'detectorVolts'
        ? heard?.detectorVolts
        : heard?.selectivity?.[source.what];
    }
    case 'dial-side': {
      const columns = dialColumns(circuit).columns.map(({ of }) => of);
      const dial = columns.find((of) => of.circuit.tuner === source.condenser);
      return dial && readingAtFrequency(dial, source.at + source.above);
    }
    case 'read':
      return faults.chart.readings.find(({ id }) => id === source.spot)?.read;
    case 'scale':
      return faults.chart.readings.find(({ id }) => id === source.spot)?.scale;
    case 'reading':
      return faults.chart.readings.find(({ id }) => id === source.spot)?.expected?.[source.which];
    case 'fault': {
      const at = faults.chart.readings.findIndex(({ id }) => id === source.spot);
      return faults.effects.find(({ fault }) => fault.id === source.fault)?.readings[at]?.value;
    }
    case 'volts':
      return tour.point.voltage(source.of, source.above);
    default:
      return askedOfTour(tour, { words: '', because: '', ...number, source });
  }
}

/**
 * A winding by its turns and its pitch: turns times pitch along the form, and so many times round
 * it. No use is made of the functions that the sheet asks.
 */
function wound(circuit: Circuit, name: string, what: 'length' | 'wire'): number | undefined {
  const owner = circuit.partNamed.get(name)?.owner ?? '';
  const shape = coilMatrix(circuit, owner)?.windings.find(({ part }) => part.name === name)?.shape;
  if (!shape) return undefined;
  const { turns, pitch, layers } = shape.wire;
  const round = 2 * Math.PI * shape.winding.radius;
  return what === 'wire' ? turns * Math.hypot(round, pitch) : (turns * pitch) / layers;
}
