/** A set to begin from; `file` lies in the folder `examples`. */
export interface Pattern {
  readonly file: string;
  readonly title: string;
  readonly words: string;
}

/** Sound sets of every common kind, from the simplest on. */
export const patterns: readonly Pattern[] = [
  {
    file: 'crystal.receiver',
    title: 'Crystal set',
    words: 'Loose coupler, crystal and telephones; no battery',
  },
  {
    file: 'one-tube-regenerative.receiver',
    title: 'One-tube regenerative set',
    words: 'Grid-leak detector with a tickler',
  },
  {
    file: 'two-tube.receiver',
    title: 'Two-tube set',
    words: 'Detector and one audio stage',
  },
  {
    file: 'resistance-coupled.receiver',
    title: 'Resistance-coupled set',
    words: 'Three audio stages coupled by resistors and condensers',
  },
  {
    file: 'push-pull.receiver',
    title: 'Push-pull set',
    words: 'Two output tubes on a split transformer',
  },
  {
    file: 'five-tube-trf.receiver',
    title: 'Five-tube tuned radio frequency set',
    words: 'Three dials, grid-leak detector, two transformer-coupled audio stages',
  },
  {
    file: 'neutralized-five.receiver',
    title: 'Neutralized five-tube set',
    words: 'The same with neutralized radio stages',
  },
  {
    file: 'potentiometer-stabilized-trf.receiver',
    title: 'Set stabilized by a potentiometer',
    words: 'Radio grids on the arm of a potentiometer across A',
  },
  {
    file: 'reflex.receiver',
    title: 'Reflex set',
    words: 'One tube amplifies radio and audio',
  },
  {
    file: 'screen-grid.receiver',
    title: 'Screen-grid set',
    words: 'Screen-grid radio stage, shielded',
  },
  {
    file: 'superheterodyne.receiver',
    title: 'Superheterodyne',
    words: 'Mixer, oscillator and intermediate stages',
  },
  {
    file: 'dry-cell-portable.receiver',
    title: 'Dry-cell portable',
    words: 'Tubes of the 99 type on a loop',
  },
  {
    file: 'heater-tubes.receiver',
    title: 'Set with heater tubes',
    words: 'Cathodes heated apart from the signal',
  },
  {
    file: 'bare-wiring.receiver',
    title: 'Set traced wire by wire',
    words: 'Parts written bare and joined by wires, as one traces a real set',
  },
];
