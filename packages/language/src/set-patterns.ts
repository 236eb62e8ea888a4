import crystal from './patterns/crystal.receiver';
import heaterTubes from './patterns/heater-tubes.receiver';
import neutralized from './patterns/neutralized.receiver';
import oneTube from './patterns/one-tube.receiver';
import portable from './patterns/portable.receiver';
import stabilized from './patterns/potentiometer-stabilized.receiver';
import pushPull from './patterns/push-pull.receiver';
import reflex from './patterns/reflex.receiver';
import resistanceCoupled from './patterns/resistance-coupled.receiver';
import screenGrid from './patterns/screen-grid.receiver';
import superheterodyne from './patterns/superheterodyne.receiver';
import threeDial from './patterns/three-dial.receiver';
import traced from './patterns/traced.receiver';
import twoTube from './patterns/two-tube.receiver';

/** A whole set of a family, to change into one's own. */
export interface SetPattern {
  /** As it is asked for: `three-dial`. */
  readonly name: string;
  /** What the trade calls such a set. */
  readonly title: string;
  /** What is in it, in a line. */
  readonly words: string;
  readonly text: string;
}

/** Sets of every family of the time, from the simplest on. */
export const setPatterns: readonly SetPattern[] = [
  {
    name: 'crystal',
    title: 'Crystal set',
    words: 'Loose coupler, crystal and telephones; no battery',
    text: crystal,
  },
  {
    name: 'one-tube',
    title: 'One-tube regenerative set',
    words: 'Grid-leak detector with a tickler',
    text: oneTube,
  },
  {
    name: 'two-tube',
    title: 'Two-tube set',
    words: 'Regenerative detector and one audio stage',
    text: twoTube,
  },
  {
    name: 'resistance-coupled',
    title: 'Resistance-coupled set',
    words: 'Three audio stages coupled by resistors and condensers',
    text: resistanceCoupled,
  },
  {
    name: 'push-pull',
    title: 'Push-pull set',
    words: 'Two output tubes on a split transformer',
    text: pushPull,
  },
  {
    name: 'three-dial',
    title: 'Three-dial set',
    words: 'Two tuned radio stages, grid-leak detector, two transformer-coupled audio stages',
    text: threeDial,
  },
  {
    name: 'neutralized',
    title: 'Neutralized five-tube set',
    words: 'The same with neutralized radio stages',
    text: neutralized,
  },
  {
    name: 'potentiometer-stabilized',
    title: 'Set stabilized by a potentiometer',
    words: 'Radio grids on the arm of a potentiometer across A',
    text: stabilized,
  },
  {
    name: 'reflex',
    title: 'Reflex set',
    words: 'One tube amplifies radio and audio',
    text: reflex,
  },
  {
    name: 'screen-grid',
    title: 'Screen-grid set',
    words: 'Screen-grid radio stage, shielded',
    text: screenGrid,
  },
  {
    name: 'superheterodyne',
    title: 'Superheterodyne',
    words: 'Mixer, oscillator and intermediate stages',
    text: superheterodyne,
  },
  {
    name: 'portable',
    title: 'Dry-cell portable',
    words: 'Tubes of the 99 type on a loop',
    text: portable,
  },
  {
    name: 'heater-tubes',
    title: 'Set with heater tubes',
    words: 'Cathodes heated apart from the signal',
    text: heaterTubes,
  },
  {
    name: 'traced',
    title: 'Set traced wire by wire',
    words: 'Parts written bare and joined by wires, as one traces a real set',
    text: traced,
  },
];

/**
 * The text of a pattern with a title of one's own.
 *
 * @param title what will not stand between quotation marks is left out of it
 */
export function titledPattern({ text }: SetPattern, title: string): string {
  const plain = title
    .replace(/"/g, "'")
    .replace(/[\p{Cc}\p{Cf}\p{Zl}\p{Zp}]+/gu, ' ')
    .trim();
  return plain === '' ? text : text.replace(/^receiver "[^"\n]*"/m, () => `receiver "${plain}"`);
}
