import type { Part } from '@setwright/circuit';
import { formatQuantity } from '@setwright/units';
import { isOnIron } from '../../tour/wiring.ts';
import type { SheetGrounds } from '../sheet-grounds.ts';
import { nextUp, preferred } from './preferred-numbers.ts';

/**
 * What to look for where a part has to be replaced. All of it is common practice: a part of today
 * with the nearest value it is made in, rated for twice what it bears in this set.
 */
export function replacement(part: Part, grounds: SheetGrounds): string {
  switch (part.kind) {
    case 'condenser':
      return condenser(part, grounds);
    case 'resistor':
    case 'leak':
      return resistor(part, grounds);
    case 'rheostat':
    case 'potentiometer':
      return 'clean it first; else wire-wound of the same ohms and watts';
    case 'ballast':
      return 'a wire-wound resistor that drops the same volts';
    case 'choke':
    case 'winding':
      return wound(part, grounds);
    case 'transformer':
      return part.words.has('air') ? 'rewind' : 'rewind, or one of like ratio';
    case 'coil':
      return '';
    case 'variometer':
    case 'loop':
      return 'measure it before it is taken apart';
    case 'phones':
      return 'high-ohm phones; low-ohm ones only through a matching transformer';
    case 'horn':
    case 'speaker':
      return 'one of like ohms; another only through a matching transformer';
    case 'crystal':
      return 'a fresh crystal; a germanium diode shows what the rest can do';
    case 'switch':
    case 'selector':
    case 'jack':
      return 'clean and bend the contacts';
    case 'fuse':
      return 'the same amperes and no more';
    case 'lamp':
      return 'the same volts and amperes';
    case 'lead':
      return 'new wire of the same thickness; keep the old cable';
    default:
      return '';
  }
}

/** Volts of direct current that condensers are made for today. */
const ratings = [63, 100, 160, 250, 400, 630, 1000, 1600];
/** Below this a rating saves nothing. */
const LEAST_RATING = 100;
/** Of those that nobody says it of: fixed condensers up to this were mica, larger ones paper. */
const MOST_MICA = 0.0061e-6;

function condenser({ name, words, values, ends }: Part, { point }: SheetGrounds): string {
  if (['variable', 'trimmer', 'neutralizing'].some((word) => words.has(word)))
    return 'clean and straighten it; nothing of today fits';
  const farads = values.capacitance?.value;
  if (farads === undefined || !(farads > 0)) return `measure it first: ${name} has no value`;
  const volts = point.voltage(ends[0]?.id ?? '', ends[1]?.id ?? '');
  const bears = Math.max(2 * Math.abs(volts ?? 0), LEAST_RATING, values.ratedVoltage?.value ?? 0);
  const rating = nextUp(bears, ratings);
  const rated = rating === undefined ? '' : `, ${rating} V or more`;
  const size = (value: number): string => formatQuantity(value, 'capacitance', 'si');
  const unknown = volts === undefined ? '; measure the volts across it first' : '';
  if (words.has('electrolytic'))
    return `electrolytic, ${size(preferred(farads, 'E12'))}${rated}; mind its polarity${unknown}`;
  if (words.has('air')) return 'clean it; nothing of today fits';
  if (words.has('mica') || (!words.has('paper') && farads <= MOST_MICA)) {
    const nearest = size(preferred(farads, 'E24'));
    return `silver mica, ${nearest}${rated}; a sound mica one stays${unknown}`;
  }
  return `film, ${size(preferred(farads, 'E12'))}${rated}${unknown}`;
}

const watts = [0.25, 0.5, 1, 2, 5, 10, 25];

function resistor({ name, kind, values }: Part, { rows }: SheetGrounds): string {
  const ohms = values.resistance?.value;
  if (ohms === undefined || !(ohms > 0)) return `measure it first: ${name} has no value`;
  const heat = rows.find((row) => row.part === name && row.quantity === 'dissipation')?.value;
  const size = nextUp(Math.max(2 * (heat ?? 0), values.ratedPower?.value ?? 0), watts);
  const strong = size === undefined ? '' : `, ${formatQuantity(size, 'power', 'si')}`;
  const nearest = formatQuantity(preferred(ohms, 'E24'), 'resistance', 'si');
  return `metal film, ${nearest}${strong}${kind === 'leak' ? '; it fits into the old tube' : ''}`;
}

function wound(part: Part, { circuit, point, style }: SheetGrounds): string {
  if (!isOnIron(circuit, part))
    return part.winding?.turns
      ? 'rewind by the coil data'
      : 'measure it, and count its turns before it is unwound';
  const amperes = point.parts.find((each) => each.part === part.name)?.amperes?.value;
  if (part.kind === 'winding' && !(Math.abs(amperes ?? 0) > 1e-5)) return '';
  const bears =
    amperes === undefined || Math.abs(amperes) < 1e-5
      ? ''
      : ` that bears ${formatQuantity(Math.abs(amperes), 'current', style, 2)} of direct current`;
  return part.kind === 'choke'
    ? `a choke of like henries${bears}`
    : `rewind, or a transformer${bears}`;
}
