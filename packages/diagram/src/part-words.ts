import type { Part } from '@setwright/circuit';

/** The symbol of a two-ended part, by its kind and its words. */
export function twoEndedSymbol(part: Part): string {
  switch (part.kind) {
    case 'condenser':
      if (part.words.has('trimmer')) return 'condenser-trimmer';
      return part.words.has('variable') || part.words.has('neutralizing')
        ? 'condenser-variable'
        : 'condenser';
    case 'resistor':
    case 'leak':
      return part.words.has('variable') ? 'resistor-variable' : 'resistor';
    case 'rheostat':
      return 'resistor-variable';
    case 'choke':
      return part.words.has('air') || (part.values.inductance?.value ?? 1) < 1
        ? 'choke'
        : 'choke-iron';
    case 'switch':
      return part.positions[part.drawnAt] === 'open' ? 'switch-open' : 'switch-closed';
    case 'ballast':
    case 'phones':
    case 'horn':
    case 'speaker':
    case 'crystal':
    case 'lamp':
    case 'fuse':
    case 'lead':
    case 'jack':
    case 'loop':
    case 'variometer':
      return part.kind;
    default:
      return 'boxed';
  }
}

/** What a part is called on paper; a lead has no name of its own. */
export const nameText = (part: Part): string => (part.kind === 'lead' ? 'lead' : part.name);

/** The ratio of a transformer as it is printed on one: `1:3`. */
export function ratioText(part: Part): string | undefined {
  const said = part.values.ratio?.text.replace(/^ratio\s+/, '');
  return said?.replace(/\s+to\s+/, ':');
}

/** The value that stands under a part's name. */
export function valueText(part: Part): string | undefined {
  if (part.kind === 'tube') return part.typeName;
  const range = part.ranges.capacitance ?? part.ranges.inductance ?? part.ranges.resistance;
  // A tuning condenser goes by what it holds with its plates fully in.
  if (range && part.words.has('variable')) return range.high.text;
  if (range) return `${range.low.text} to ${range.high.text}`;
  const { capacitance, inductance, resistance, volts } = part.values;
  const value =
    part.kind === 'condenser'
      ? capacitance
      : part.kind === 'choke' || part.kind === 'loop' || part.kind === 'variometer'
        ? inductance
        : part.kind === 'ballast' || part.kind === 'lamp'
          ? volts
          : resistance;
  return value?.text;
}

/** What stands beside a winding: its turns, else its inductance or ohms. */
export function windingText(part: Part): string | undefined {
  const turns = part.winding?.turns;
  if (turns) return turns.text;
  return (part.values.inductance ?? part.values.resistance)?.text;
}
