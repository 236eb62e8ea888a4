import { type Dimension, formatQuantity } from '@setwright/units';

interface QuantityKind {
  /** As the trade calls it. */
  readonly words: string;
  /** The SI unit that its number is in; `1` for a plain number. */
  readonly unit: string;
  readonly dimension: Dimension | 'conductance' | 'hours';
}

const kind = (words: string, unit: string, dimension: QuantityKind['dimension']): QuantityKind => ({
  words,
  unit,
  dimension,
});

/** Everything that is reckoned of a part, by the name it has in the JSON. */
export const quantities = {
  inductance: kind('inductance', 'H', 'inductance'),
  resistance: kind('resistance', 'Ω', 'resistance'),
  'self-capacitance': kind('capacity in itself', 'F', 'capacitance'),
  q: kind('Q', '1', 'ratio'),
  'mutual-inductance': kind('mutual inductance', 'H', 'inductance'),
  coupling: kind('coupling', '1', 'ratio'),
  'lowest-frequency': kind('lowest frequency', 'Hz', 'frequency'),
  'highest-frequency': kind('highest frequency', 'Hz', 'frequency'),
  'longest-wavelength': kind('longest wave', 'm', 'wavelength'),
  'shortest-wavelength': kind('shortest wave', 'm', 'wavelength'),
  capacitance: kind('capacity', 'F', 'capacitance'),
  'least-capacitance': kind('least capacity', 'F', 'capacitance'),
  'most-capacitance': kind('most capacity', 'F', 'capacitance'),
  'loaded-q': kind('Q of the circuit', '1', 'ratio'),
  bandwidth: kind('band let through', 'Hz', 'frequency'),
  impedance: kind('impedance in tune', 'Ω', 'resistance'),
  reactance: kind('reactance', 'Ω', 'resistance'),
  bias: kind('grid bias', 'V', 'voltage'),
  'plate-voltage': kind('plate volts', 'V', 'voltage'),
  'screen-voltage': kind('screen volts', 'V', 'voltage'),
  'plate-current': kind('plate current', 'A', 'current'),
  'screen-current': kind('screen current', 'A', 'current'),
  'grid-current': kind('grid current', 'A', 'current'),
  'filament-voltage': kind('filament volts', 'V', 'voltage'),
  'filament-current': kind('filament current', 'A', 'current'),
  transconductance: kind('mutual conductance', 'S', 'conductance'),
  'plate-resistance': kind('plate resistance', 'Ω', 'resistance'),
  amplification: kind('amplification factor', '1', 'ratio'),
  gain: kind('gain', '1', 'ratio'),
  dissipation: kind('dissipation', 'W', 'power'),
  voltage: kind('volts', 'V', 'voltage'),
  current: kind('current', 'A', 'current'),
  drain: kind('drain', 'A', 'current'),
  hours: kind('hours of service', 'h', 'hours'),
} as const satisfies Readonly<Record<string, QuantityKind>>;

export type Quantity = keyof typeof quantities;

/** How numbers are written for people: as on the parts of the time, or in SI units. */
export type UnitStyle = 'period' | 'si';

/** A quantity's number for people: `232 µH`, `731 micromhos`, `80.5 hours`. */
export function quantityText(quantity: Quantity, value: number, style: UnitStyle): string {
  const { dimension } = quantities[quantity];
  switch (dimension) {
    case 'conductance': {
      const micro = formatQuantity(value * 1e6, 'ratio');
      return style === 'si' ? `${micro} µS` : `${micro} micromhos`;
    }
    case 'hours': {
      const hours = formatQuantity(value, 'ratio');
      return style === 'si' ? `${hours} h` : `${hours} hours`;
    }
    default:
      return formatQuantity(value, dimension, style);
  }
}
