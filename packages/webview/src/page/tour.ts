import type { TourStep } from '../protocol.ts';
import { make } from './dom.ts';

/** The tour's words beside the picture, one step at a time. */
export interface Tour {
  readonly element: HTMLElement;
  show(steps: readonly TourStep[], step: number): void;
}

/** `turn` is told which step the reader wants. */
export function tour(turn: (step: number) => void): Tour {
  const title = make('h2');
  const words = make('div', { class: 'words' });
  const place = make('span', { class: 'share' });
  const button = (text: string): HTMLButtonElement => make('button', { type: 'button' }, text);
  const [back, on] = [button('Back'), button('Next')];
  let at = 0;
  back.addEventListener('click', () => turn(at - 1));
  on.addEventListener('click', () => turn(at + 1));
  const element = make(
    'section',
    { class: 'tour', 'aria-label': 'Tour', hidden: true },
    make('div', { class: 'step', 'aria-live': 'polite' }, title, words),
    make('div', { class: 'turns' }, back, place, on),
  );
  return {
    element,
    show: (steps, step) => {
      const shown = steps[step];
      element.hidden = !shown;
      if (!shown) return;
      at = step;
      title.textContent = shown.title;
      words.replaceChildren(...shown.words.map((each) => make('p', {}, each)));
      place.textContent = `${step + 1} of ${steps.length}`;
      back.disabled = step === 0;
      on.disabled = step === steps.length - 1;
    },
  };
}
