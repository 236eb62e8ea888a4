import type { Selectivity } from '@setwright/analysis';
import type { Axis, Chart, Curve, Point } from '../chart/chart.ts';
import { listed } from '../text/words.ts';
import type { UnitStyle } from '../values/quantities.ts';
import type { SetResponse, StationTold } from './response-of.ts';
import { endsAtMixer } from './signal-words.ts';

/** The charts of a set: gain over the band, selectivity, audio. Those without figures are left out. */
export function responseCharts(set: SetResponse, style: UnitStyle): readonly Chart[] {
  if (set.missing.length > 0) return [];
  return [...gainChart(set, style), ...selectivityChart(set, style), ...audioChart(set, style)];
}

const kilo = (style: UnitStyle): string => (style === 'si' ? 'kHz' : 'kc');
const whole = (hertz: number): string => String(Math.round(hertz / 100) / 10);
const signed = (value: number): string => String(Math.round(value * 100) / 100).replace('-', '−');

function gainChart(set: SetResponse, style: UnitStyle): readonly Chart[] {
  const { circuit, stations } = set;
  const end = endsAtMixer(set) ? 'mixer' : 'detector';
  const marked = stations.flatMap(({ heard }): Point[] =>
    heard.detectorVolts !== undefined && heard.detectorVolts > 0
      ? [[heard.frequency, heard.detectorVolts]]
      : [],
  );
  if (marked.length < 2) return [];
  const all = stations.map(({ heard }) => heard.frequency);
  const gains = curveOver(stations, `at the ${end}`, 0, ({ heard }) => heard.detectorVolts);
  const widths = [
    curveOver(stations, '6 decibels down', 1, ({ heard }) => thousandth(heard.selectivity?.width6)),
    curveOver(stations, '20 decibels down', 2, ({ heard }) =>
      thousandth(heard.selectivity?.width20),
    ),
  ].filter(({ marked: points }) => points.length > 0);
  return [
    {
      title: `${circuit.title || 'Receiver'}: gain and width over the band`,
      description: `Volts at the ${end} for one volt in the aerial: ${marked
        .map(([at, volts]) => `${signed(volts)} at ${whole(at)} ${kilo(style)}`)
        .join(', ')}.`,
      x: {
        label: style === 'si' ? 'station, kHz' : 'station, kilocycles',
        low: Math.min(...all),
        high: Math.max(...all),
        scale: 'linear',
        write: whole,
      },
      top: undefined,
      panels: [
        { y: decades(`volts at the ${end}`, [gains]), curves: [gains], share: 1 },
        ...(widths.length > 0
          ? [{ y: decades(`width, ${kilo(style)}`, widths), curves: widths, share: 1 }]
          : []),
      ],
    },
  ];
}

function thousandth(value: number | undefined): number | undefined {
  return value === undefined ? undefined : value / 1000;
}

function curveOver(
  stations: readonly StationTold[],
  name: string,
  look: number,
  of: (station: StationTold) => number | undefined,
): Curve {
  const points = stations.map((station): Point | undefined => {
    const value = of(station);
    return value !== undefined && value > 0 ? [station.heard.frequency, value] : undefined;
  });
  return { name, look, points, marked: points.flatMap((point) => (point ? [point] : [])) };
}

/** A logarithmic axis that holds all curves, from one round number to another. */
function decades(label: string, curves: readonly Curve[]): Axis {
  const values = curves.flatMap(({ marked }) => marked.map(([, value]) => value));
  const low = roundDown(Math.min(...values) * 0.95);
  const high = roundUp(Math.max(...values) * 1.05);
  const wide = high / low > 4;
  return { label, low, high, scale: wide ? 'logarithmic' : 'linear', write: signed };
}

function roundDown(value: number): number {
  const decade = 10 ** Math.floor(Math.log10(value));
  return decade * ([5, 2, 1].find((each) => each * decade <= value) ?? 1);
}

function roundUp(value: number): number {
  const decade = 10 ** Math.floor(Math.log10(value));
  return decade * ([1, 2, 5, 10].find((each) => each * decade >= value) ?? 10);
}

/** Decibels down beyond which nothing is heard or drawn. */
const FAINTEST = -80;

/** The curves at the low end, in the middle and at the high end of the band. */
function selectivityChart(set: SetResponse, style: UnitStyle): readonly Chart[] {
  const { circuit, stations, intermediate } = set;
  const known = stations.filter(({ heard }) => (heard.selectivity?.curve.length ?? 0) > 2);
  const chosen = [
    ...new Set([known[0], known[Math.floor((known.length - 1) / 2)], known.at(-1)]),
  ].flatMap((each) => (each ? [each] : []));
  const curveOf = (name: string, found: Selectivity | undefined, look: number): Curve => {
    const points = (found?.curve ?? []).flatMap(({ offset, decibels: down }): Point[] =>
      down < FAINTEST ? [] : [[offset, down]],
    );
    return { name, look, points, marked: points };
  };
  const tuned = chosen.map(({ heard }, look) =>
    curveOf(`${whole(heard.frequency)} ${kilo(style)}`, heard.selectivity, look),
  );
  // Behind a mixer it is the intermediate amplifier that sifts.
  const behind = intermediate?.selectivity
    ? [
        curveOf(
          `behind the mixer, ${whole(intermediate.frequency)} ${kilo(style)}`,
          intermediate.selectivity,
          tuned.length,
        ),
      ]
    : [];
  const curves = [...tuned, ...behind];
  if (curves.length === 0) return [];
  const offsets = curves.flatMap(({ points }) => points.map((point) => point?.[0] ?? 0));
  return [
    {
      title: `${circuit.title || 'Receiver'}: what comes through beside the station`,
      description: `Strength in decibels against that of the station, for a set tuned to ${listed(tuned.map(({ name }) => name))}${behind.length > 0 ? ', and behind its mixer' : ''}.`,
      x: {
        label: `off the station, ${kilo(style)}`,
        low: Math.min(...offsets),
        high: Math.max(...offsets),
        scale: 'linear',
        write: (value) => signed(value / 1000),
      },
      top: undefined,
      panels: [{ y: decibels(curves), curves, share: 1 }],
    },
  ];
}

function decibels(curves: readonly Curve[]): Axis {
  const values = curves.flatMap(({ points }) => points.map((point) => point?.[1] ?? 0));
  return {
    label: 'decibels',
    low: 10 * Math.floor(Math.min(-10, ...values) / 10),
    high: 5 * Math.ceil(Math.max(0, ...values) / 5 + 0.2),
    scale: 'linear',
    write: signed,
  };
}

function audioChart({ circuit, audio }: SetResponse, style: UnitStyle): readonly Chart[] {
  if (!audio || audio.points.length < 2) return [];
  const points = audio.points.map(({ frequency, decibels: down }): Point => [frequency, down]);
  const curve: Curve = {
    name: audio.output,
    look: 0,
    points,
    // Every fourth is enough to be told apart by.
    marked: points.filter((_, index) => index % 4 === 0),
  };
  const frequencies = points.map(([at]) => at);
  const low = Math.max(-40, Math.min(...points.map(([, down]) => down)));
  return [
    {
      title: `${circuit.title || 'Receiver'}: audio, from ${audio.detector} to ${audio.output}`,
      description: `Volts across ${audio.output} in decibels against 1000 cycles; within 6 decibels from ${Math.round(audio.low)} to ${Math.round(audio.high)} cycles.`,
      x: {
        label: style === 'si' ? 'Hz' : 'cycles',
        low: Math.min(...frequencies),
        high: Math.max(...frequencies),
        scale: 'logarithmic',
        write: (value) => String(value),
      },
      top: undefined,
      panels: [
        {
          y: { ...decibels([curve]), low: 10 * Math.floor(Math.min(-10, low) / 10) },
          curves: [curve],
          share: 1,
        },
      ],
    },
  ];
}
