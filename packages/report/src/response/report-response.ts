import { formatQuantity } from '@setwright/units';
import type { Remark } from '../dials/report-dials.ts';
import { csvOf } from '../text/csv.ts';
import { gathered } from '../text/gathered.ts';
import type { Styles } from '../text/styles.ts';
import { tableOf } from '../text/table.ts';
import { printableJson, visible } from '../text/visible.ts';
import { listed } from '../text/words.ts';
import { wrapped } from '../text/wrapped.ts';
import type { UnitStyle } from '../values/quantities.ts';
import { growing, type SetResponse, type StationTold } from './response-of.ts';
import {
  boundWords,
  bypassWords,
  endsAtMixer,
  intermediateWords,
  regenerationWords,
  untunedWords,
} from './signal-words.ts';
import { USUAL_QUALITY } from './squeal-cure.ts';
import { cureWords, quietWords, verdictWords } from './squeal-words.ts';

/** For other programs: hertz, volts for one volt in the aerial, decibels, farads. */
export function responseInJson(path: string, sets: readonly SetResponse[]): string {
  const report = {
    version: 1,
    path,
    receivers: sets.map(setInJson),
  };
  return `${printableJson(report)}\n`;
}

function setInJson(set: SetResponse) {
  const { circuit, stations, intermediate, audio, stability, cure, usual, missing } = set;
  return {
    title: circuit.title,
    verdict: missing.length > 0 ? 'unknown' : stability.verdict,
    endsAt: endsAtMixer(set) ? 'mixer' : 'detector',
    stations: stations.map(stationInJson),
    intermediate: intermediate
      ? {
          mixer: intermediate.mixer,
          detector: intermediate.detector,
          stated: intermediate.stated,
          frequency: intermediate.frequency,
          gain: intermediate.gain ?? null,
          width6: intermediate.selectivity?.width6 ?? null,
          width20: intermediate.selectivity?.width20 ?? null,
          oscillates: intermediate.oscillates,
        }
      : null,
    audio: audio
      ? {
          detector: audio.detector,
          output: audio.output,
          low: audio.low,
          high: audio.high,
          points: audio.points,
        }
      : null,
    howls: growing(stability.audio) ?? null,
    cure: cure
      ? {
          stations: cure.stations,
          tubes: cure.margin.tubes,
          seriesResistance: cure.margin.seriesResistance ?? null,
          gridPlateCapacitance: cure.margin.gridPlate ?? null,
          q: cure.quality ?? null,
          withUsualCoils: cure.usually ?? null,
          usual: cure.usualMargin
            ? {
                q: USUAL_QUALITY,
                seriesResistance: cure.usualMargin.seriesResistance ?? null,
                gridPlateCapacitance: cure.usualMargin.gridPlate ?? null,
              }
            : null,
        }
      : null,
    usualCoils: usual
      ? { q: USUAL_QUALITY, frequency: usual.frequency, voltsAtDetector: usual.detectorVolts }
      : null,
    regeneration: set.regeneration
      ? {
          control: set.regeneration.control.name,
          tube: set.regeneration.tube,
          begins: set.regeneration.begins,
          backedOff: set.regeneration.backedOff?.share ?? null,
        }
      : null,
    bypassesOpened: set.bypasses.map(({ condenser, tubes, supply, tap, cases }) => ({
      condenser: condenser?.name ?? null,
      tubes,
      supply: supply.name,
      tap,
      cases: cases.map(({ ohms, isOwn, losses }) => ({
        resistance: ohms ?? null,
        asTold: isOwn,
        losses: losses.map(({ frequency, decibels }) => ({
          frequency,
          decibels: decibels ?? null,
        })),
      })),
    })),
    neutralized: stability.neutralized.map(({ condenser, tube, farads, reaches }) => ({
      condenser,
      tube,
      capacitance: farads,
      reaches,
    })),
    missing,
    left: set.left,
    taken: set.taken,
  };
}

function stationInJson({ heard, quiet }: StationTold) {
  const { frequency, detectorVolts, stages, selectivity, oscillates } = heard;
  return {
    frequency,
    oscillates: oscillates?.modes ?? [],
    voltsAtDetector: detectorVolts ?? null,
    stages: (stages ?? []).map(({ tube, stage, gridVolts, plateVolts, gain }) => ({
      tube,
      stage,
      gridVolts,
      plateVolts,
      gain: gain ?? null,
    })),
    width6: selectivity?.width6 ?? null,
    width20: selectivity?.width20 ?? null,
    selectivity: selectivity?.curve ?? [],
    beyondReach: heard.alignment.circuits
      .filter(({ reaches }) => !reaches)
      .map(({ condenser }) => condenser),
    stability: quiet
      ? {
          inTune: growing(quiet.aligned) ?? null,
          apart: growing(quiet.worst.modes) ?? null,
          offsets: [...quiet.worst.offsets].map(([dial, off]) => ({ dial, off })),
          growth: quiet.worst.growth,
        }
      : null,
  };
}

/** For a spreadsheet: one figure on a line. */
export function responseInCsv(sets: readonly SetResponse[]): string {
  const lines = sets.flatMap(({ circuit, stations, audio }) => [
    ...stations.flatMap(({ heard, quiet }) => {
      const { frequency, detectorVolts, stages, selectivity } = heard;
      const row = (part: string, quantity: string, value: number | undefined, unit: string) => [
        circuit.title,
        frequency,
        part,
        quantity,
        value,
        unit,
      ];
      return [
        row('detector', 'voltage', detectorVolts, 'V/V'),
        ...(stages ?? []).flatMap(({ tube, gridVolts, gain }) => [
          row(tube, 'grid-voltage', gridVolts, 'V/V'),
          ...(gain === undefined ? [] : [row(tube, 'gain', gain, '1')]),
        ]),
        row('set', 'width-6-decibels', selectivity?.width6, 'Hz'),
        row('set', 'width-20-decibels', selectivity?.width20, 'Hz'),
        row('set', 'growing-modes-in-tune', quiet && growing(quiet.aligned), '1'),
        row('set', 'growing-modes-apart', quiet && growing(quiet.worst.modes), '1'),
      ];
    }),
    ...(audio?.points ?? []).map(({ frequency, decibels }) => [
      circuit.title,
      frequency,
      audio?.output,
      'audio-response',
      decibels,
      'dB',
    ]),
  ]);
  return csvOf(['receiver', 'frequency', 'part', 'quantity', 'value', 'unit'], lines);
}

/** For a person: a table of stations, then what comes out of the loudspeaker, then squealing. */
export function responseInWords(
  set: SetResponse,
  style: UnitStyle,
  columns: number,
  styles: Styles,
): string[] {
  const width = Math.max(50, Math.min(columns, 100));
  const say = (words: string): string[] => wrapped(visible(words), width);
  const title = set.circuit.title || 'Receiver without a name';
  const out = [styles.strong(visible(`${title}: what it makes of a signal`)), ''];
  if (set.missing.length === 0) out.push(...responseTable(set, style), '');
  return [...out, ...responseRemarks(set, style).flatMap(({ words }) => say(words))];
}

/** What is to be said of a response besides its table. */
export function responseRemarks(set: SetResponse, style: UnitStyle): readonly Remark[] {
  const { circuit, stations, audio, stability, missing, left, taken } = set;
  const remarks: Remark[] = [];
  const say = (words: string, isMissing = false): void => {
    if (words !== '') remarks.push({ words, isMissing });
  };
  const isKnown = missing.length === 0;
  if (isKnown) {
    say(legendOf(set));
    say(untunedWords(set));
    say(boundWords(set, style));
    say(intermediateWords(set, style));
    say(regenerationWords(set, style));
  } else say(`Its gain is not known, for want of ${listed(missing)}.`, true);
  if (audio) {
    const [low, high] = [audio.low, audio.high].map((each) =>
      formatQuantity(each, 'frequency', style, 2),
    );
    say(
      `${audio.output} speaks from ${low} to ${high}, within 6 decibels of 1000 ${style === 'si' ? 'Hz' : 'cycles'}.`,
    );
  }
  say(verdictWords(set, style));
  say(cureWords(set, style));
  if (stability.neutralized.length > 0 && isKnown)
    say(
      `Neutralized: ${stability.neutralized
        .map(({ condenser, farads, reaches }) => {
          const size = formatQuantity(farads, 'capacitance', style);
          return `${condenser} ${size}${reaches ? '' : ', which is as far as it goes'}`;
        })
        .join('; ')}.`,
    );
  for (const each of set.bypasses) say(bypassWords(each, style));
  if (isKnown) say(stopWords(stations, style));
  const isName = (word: string): boolean =>
    circuit.partNamed.has(word) || circuit.endNamed.has(word);
  if (left.length > 0) say(`Not told, and left out: ${left.join('; ')}.`);
  if (taken.length > 0) say(`Taken: ${gathered(taken, isName).join('; ')}.`);
  return remarks;
}

/** What the columns of the table are. */
function legendOf(set: SetResponse): string {
  const at = endsAtMixer(set) ? 'mixer' : 'detector';
  const hasGains = tubesWithGain(set.stations).length > 0;
  const hasAerial = set.circuit.parts.some(
    ({ kind, words }) => kind === 'post' && words.has('aerial'),
  );
  return `At the ${at}: volts for one volt in the ${hasAerial ? 'aerial' : 'loop'}. Then ${hasGains ? 'the gain from each grid to the next, and ' : ''}how wide it tunes 6 and 20 decibels down.`;
}

export function tubesWithGain(stations: readonly StationTold[]): readonly string[] {
  return [
    ...new Set(
      stations.flatMap(({ heard }) =>
        (heard.stages ?? []).flatMap(({ tube, gain }) => (gain === undefined ? [] : tube)),
      ),
    ),
  ];
}

function responseTable(set: SetResponse, style: UnitStyle): string[] {
  const { stations } = set;
  const tubes = tubesWithGain(stations);
  const at = endsAtMixer(set) ? 'at mixer' : 'at detector';
  return tableOf(
    ['station', at, ...tubes.map(visible), 'at −6 dB', 'at −20 dB', 'oscillation'],
    stations.map((station) => {
      const { frequency, detectorVolts, stages, selectivity } = station.heard;
      return [
        formatQuantity(frequency, 'frequency', style, 4),
        plain(detectorVolts),
        ...tubes.map((name) => plain(stages?.find(({ tube }) => tube === name)?.gain)),
        hertz(selectivity?.width6, style),
        hertz(selectivity?.width20, style),
        quietWords(station, style),
      ];
    }),
  );
}

function plain(value: number | undefined): string {
  return value === undefined ? '–' : formatQuantity(value, 'ratio');
}

function hertz(value: number | undefined, style: UnitStyle): string {
  return value === undefined ? '–' : formatQuantity(value, 'frequency', style);
}

/** Condensers that do not reach a station and stand at their stops. */
function stopWords(stations: readonly StationTold[], style: UnitStyle): string {
  const stops = stations.flatMap(({ heard }) => {
    const names = heard.alignment.circuits.flatMap(({ reaches, condenser }) =>
      reaches ? [] : [condenser],
    );
    return names.length === 0
      ? []
      : [`${listed(names)} at ${formatQuantity(heard.frequency, 'frequency', style, 4)}`];
  });
  return stops.length === 0 ? '' : `At the stop, out of reach: ${stops.join('; ')}.`;
}
