import { rolesOf } from '@setwright/circuit';
import { formatQuantity } from '@setwright/units';
import { listed } from '../text/words.ts';
import type { UnitStyle } from '../values/quantities.ts';
import type { BypassCase, BypassOpened } from './bypass-opened.ts';
import { faradsAt, type RegenerationTold } from './regeneration-told.ts';
import type { SetResponse } from './response-of.ts';

/** Decibels that nobody hears. */
const UNHEARD = 2;

/** Whether the signal ends at a mixer, whose grid is no detector's to a restorer. */
export function endsAtMixer({ circuit, stations }: SetResponse): boolean {
  const last = stations.flatMap(({ heard }) => heard.stages?.at(-1) ?? [])[0];
  const tube = last && circuit.partNamed.get(last.tube);
  return tube !== undefined && rolesOf(circuit, tube).includes('mixer');
}

/** What the intermediate amplifier passes; empty for a set without one. */
export function intermediateWords({ intermediate }: SetResponse, style: UnitStyle): string {
  if (!intermediate) return '';
  const { mixer, detector, stated, frequency, gain, selectivity, oscillates } = intermediate;
  const way = `The intermediate amplifier, from ${mixer} to ${detector},`;
  const hertz = (value: number) => formatQuantity(value, 'frequency', style);
  if (oscillates || gain === undefined) return `${way} oscillates by itself near ${hertz(stated)}.`;
  const off =
    Math.abs(frequency / stated - 1) > 0.005 ? `, where the text says ${hertz(stated)}` : '';
  const widths = [
    ...(selectivity?.width6 ? [`${hertz(selectivity.width6)} wide 6 decibels down`] : []),
    ...(selectivity?.width20 ? [`${hertz(selectivity.width20)} wide 20 down`] : []),
  ];
  const wide = widths.length > 0 ? `, ${listed(widths)}` : '';
  return `${way} passes most at ${hertz(frequency)}${off}: a gain of ${formatQuantity(gain, 'ratio')}${wide}. What mixing loses is not in it.`;
}

/** How a regenerative set is governed, and where its control was put; empty for any other. */
export function regenerationWords(
  { circuit, regeneration }: SetResponse,
  style: UnitStyle,
): string {
  if (!regeneration) return '';
  const { control, tube, begins, backedOff } = regeneration;
  const stand = (share: number): string => standWords(circuit, regeneration, share, style);
  const where = begins.map(
    ({ frequency, share }) => `${stand(share)} at ${formatQuantity(frequency, 'frequency', style)}`,
  );
  const from =
    where.length > 0
      ? `${control.name} makes ${tube} oscillate from ${listed(where)} on, with the losses of the wire alone.`
      : '';
  const put = backedOff
    ? `All figures are with ${control.name} backed off to ${stand(backedOff.share)}: a listener turns it up to just short of oscillation, where it hears far more.`
    : '';
  return [put, from].filter((words) => words !== '').join(' ');
}

function standWords(
  circuit: SetResponse['circuit'],
  { control }: RegenerationTold,
  share: number,
  style: UnitStyle,
): string {
  const farads = control.kind === 'condenser' ? faradsAt(circuit, control, share) : undefined;
  return farads === undefined
    ? `${Math.round(100 * share)} %`
    : formatQuantity(farads, 'capacitance', style, 2);
}

/** How good the figures are: an upper bound, and what usual coils leave of it. */
export function boundWords(set: SetResponse, style: UnitStyle): string {
  const { usual, stations } = set;
  const bound =
    'The coils are taken to lose what their wire loses and nothing in form, covering and shields, so gain and sharpness are upper bounds';
  const whole = stations.find(({ heard }) => heard.frequency === usual?.frequency)?.heard;
  if (!usual || whole?.detectorVolts === undefined) return `${bound}.`;
  const at = formatQuantity(usual.frequency, 'frequency', style);
  const [less, most] = [usual, whole].map((each) =>
    formatQuantity(each.detectorVolts ?? 0, 'ratio'),
  );
  return less === most
    ? `${bound}.`
    : `${bound}: with coils of a Q of 100, common for the time, it is ${less} and not ${most} at ${at}.`;
}

/** What is left as it stands, though a listener would turn it to the station. */
export function untunedWords({ circuit, regeneration }: SetResponse): string {
  const names = circuit.parts.flatMap(({ kind, name, ranges }) =>
    kind === 'variometer' && ranges.inductance && name !== regeneration?.control.name ? name : [],
  );
  if (names.length === 0) return '';
  return `A listener tunes by ${listed(names)} too: the figures are with ${names.length > 1 ? 'the variometers as they stand' : 'the variometer as it stands'}, not turned to each station.`;
}

/** What an opened bypass of the plate supply does. */
export function bypassWords(opened: BypassOpened, style: UnitStyle): string {
  const { condenser, tubes, supply, cases } = opened;
  const what = cases.map((each) => `${withWords(each, opened, style)} ${effectWords(each, style)}`);
  if (!condenser)
    return `No bypass lies between ${opened.tap} and the filaments, as in most sets to 1926. What that does to the signal of ${listed(tubes)} as ${supply.name} ages no DC voltage tells: ${what.join('; ')}.`;
  return `If ${condenser.name} opens, every DC voltage stays as it was: no voltmeter finds it. What it does to the signal of ${listed(tubes)} depends on the resistance of ${supply.name}: ${what.join('; ')}.`;
}

function withWords(
  { ohms, isOwn }: BypassCase,
  { supply, tap }: BypassOpened,
  style: UnitStyle,
): string {
  const size = ohms === undefined ? '' : formatQuantity(ohms, 'resistance', style, 2);
  if (!isOwn) return `with ${size} up to ${tap}, as in a tired block, it`;
  if (supply.kind === 'eliminator')
    return `with ${supply.name} as it is, whose own condensers remain, it`;
  return size === ''
    ? `with ${supply.name} as is usual, no longer new, it`
    : `with the ${size} that it has up to ${tap} it`;
}

function effectWords({ losses }: BypassCase, style: UnitStyle): string {
  const at = (frequency: number) => formatQuantity(frequency, 'frequency', style);
  const known = losses.flatMap(({ decibels, frequency }) =>
    decibels === undefined ? [] : [{ decibels, frequency }],
  );
  const sizes = known.map(({ decibels }) => Math.abs(decibels));
  if (known.length === losses.length && sizes.every((size) => size < UNHEARD))
    return `does hardly anything (${decibelWords(Math.max(...sizes), style)})`;
  const does = (verb: string, wanted: (decibels: number) => boolean, isSized = true): string[] => {
    const here = known.filter(({ decibels }) => wanted(decibels));
    const places = here.map(({ decibels, frequency }) =>
      isSized ? `${decibelWords(Math.abs(decibels), style)} at ${at(frequency)}` : at(frequency),
    );
    return here.length === 0 ? [] : [`${verb} ${listed(places)}`];
  };
  const singing = losses.filter(({ decibels }) => decibels === undefined);
  return listed([
    ...(singing.length > 0
      ? [`squeals at ${listed(singing.map(({ frequency }) => at(frequency)))}`]
      : []),
    ...does('loses', (decibels) => decibels >= UNHEARD),
    ...does('adds', (decibels) => decibels <= -UNHEARD),
    ...does('does hardly anything at', (decibels) => Math.abs(decibels) < UNHEARD, false),
  ]);
}

function decibelWords(size: number, style: UnitStyle): string {
  const number = formatQuantity(size, 'number', style, size < 1 ? 1 : 2);
  return `${number} ${number === '1' ? 'decibel' : 'decibels'}`;
}
