/** Colors of a chart on light or on dark ground. */
export interface Looks {
  readonly ground: string;
  readonly ink: string;
  readonly faint: string;
  readonly grid: string;
  readonly curves: readonly string[];
}

/**
 * Told apart by most eyes, and by their marks and dashes by all. Every one stands out from its
 * ground by 6 to 1 and more.
 */
export const light: Looks = {
  ground: '#fffdf8',
  ink: '#23201b',
  faint: '#5f5a51',
  grid: '#e2ddd2',
  curves: ['#0a5c97', '#a63d00', '#2a6e2f', '#7b2f8f', '#7a5c00', '#00696b'],
};

export const dark: Looks = {
  ground: '#1b1c1e',
  ink: '#ece8df',
  faint: '#b3ada1',
  grid: '#3a3b3e',
  curves: ['#6cb6f0', '#f39b6d', '#86cf83', '#d59be6', '#e0be5a', '#5fcfcb'],
};

/** For print, and for printers without color: dark on white. */
export const paper: Looks = {
  ground: '#ffffff',
  ink: '#000000',
  faint: '#333333',
  grid: '#d4d4d4',
  curves: ['#000000', '#8a2f00', '#0a4a7a', '#5a1f6b', '#1f5423', '#6b5000'],
};

/** Dashes of the curves, so that they are told apart without color. */
const dashes = ['', '7 3', '2 3', '9 3 2 3', '12 4', '4 4'] as const;

/** The look of a curve by its number; they begin anew after the last. */
export function curveLook(looks: Looks, index: number): { color: string; dash: string } {
  return {
    color: looks.curves[index % looks.curves.length] ?? looks.ink,
    dash: dashes[index % dashes.length] ?? '',
  };
}
