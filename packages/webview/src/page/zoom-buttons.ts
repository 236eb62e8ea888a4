import { make } from './dom.ts';

export interface ZoomButtons {
  readonly element: HTMLElement;
  say(scale: number, isFitted: boolean): void;
}

export function zoomButtons(on: { nearer(): void; further(): void; fit(): void }): ZoomButtons {
  const button = (label: string, sign: string, does: () => void): HTMLButtonElement => {
    const made = make('button', { type: 'button', 'aria-label': label, title: label }, sign);
    made.addEventListener('click', does);
    return made;
  };
  const fit = button('Show the whole (0)', 'Whole', on.fit);
  const share = make('span', { class: 'share' });
  const element = make(
    'div',
    { class: 'zoom', role: 'group', 'aria-label': 'Zoom' },
    button('Zoom out (-)', '\u2212', on.further),
    share,
    button('Zoom in (+)', '+', on.nearer),
    fit,
  );
  return {
    element,
    say: (scale, isFitted) => {
      share.textContent = `${Math.round(scale * 100)} %`;
      fit.setAttribute('aria-pressed', `${isFitted}`);
    },
  };
}
