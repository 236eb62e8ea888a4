import type { TourStep } from '../protocol.ts';
import { isStill, make } from './dom.ts';

/** The tour's words beside the picture, one step at a time. */
export interface Tour {
  readonly element: HTMLElement;
  show(steps: readonly TourStep[], step: number, runs: boolean): void;
}

export interface TourEvents {
  /** The reader wants another step. */
  turn(step: number): void;
  /** What is drawn is to run along its way, or to stand still. */
  run(runs: boolean): void;
}

const keysHint =
  'Page Down or N for the next step, Page Up or B for the one before, R lets it run or stops it.';

/** Keys that turn, by where they lead from a step, of so many. */
const turns: Readonly<Record<string, (at: number, last: number) => number>> = {
  PageDown: (at) => at + 1,
  n: (at) => at + 1,
  PageUp: (at) => at - 1,
  b: (at) => at - 1,
};
/** These too, where they have nothing else to do: the picture has its own use for them. */
const turnsInWords: typeof turns = {
  ArrowRight: (at) => at + 1,
  ArrowLeft: (at) => at - 1,
  Home: () => 0,
  End: (_, last) => last,
};

/** These have their own use for letters and for keys that turn pages. */
const takers = 'select, input, [role=menu]';

export function tour(events: TourEvents): Tour {
  const title = make('h2');
  const words = make('div', { class: 'words' });
  const place = make('span', { class: 'share' });
  const button = (text: string): HTMLButtonElement => make('button', { type: 'button' }, text);
  const [back, on] = [button('Back'), button('Next')];
  const run = make('button', { type: 'button', class: 'toggle running' }, 'Let it run');
  run.title = 'The current runs along its way; R';
  back.title = 'The step before; Page Up or B';
  on.title = 'The next step; Page Down or N';
  let at = 0;
  let last = 0;
  const turn = (to: number): void => {
    const step = Math.min(Math.max(to, 0), last);
    if (step !== at) events.turn(step);
  };
  back.addEventListener('click', () => turn(at - 1));
  on.addEventListener('click', () => turn(at + 1));
  run.addEventListener('click', () => events.run(run.getAttribute('aria-pressed') !== 'true'));
  const element = make(
    'section',
    { class: 'tour', 'aria-label': 'Tour', 'aria-describedby': 'tour-keys', hidden: true },
    make('p', { id: 'tour-keys', class: 'unseen' }, keysHint),
    make('div', { class: 'turns' }, back, place, on, make('span', { class: 'spring' }), run),
    make('div', { class: 'step', tabindex: 0, 'aria-live': 'polite' }, title, words),
  );
  addEventListener('keydown', (event) => {
    const { key, target, defaultPrevented, ctrlKey, metaKey, altKey, shiftKey } = event;
    if (element.hidden || defaultPrevented || ctrlKey || metaKey || altKey || shiftKey) return;
    if (!(target instanceof Element) || target.closest(takers)) return;
    const isTaken = target.closest('.stage, [role=tablist]') !== null;
    const to = turns[key] ?? (isTaken ? undefined : turnsInWords[key]);
    if (to) turn(to(at, last));
    else if (key === 'r') run.click();
    else return;
    event.preventDefault();
  });
  return {
    element,
    show: (steps, step, runs) => {
      const shown = steps[step];
      element.hidden = !shown;
      if (!shown) return;
      at = step;
      last = steps.length - 1;
      // Said once, and not again with every edit elsewhere.
      if (title.textContent !== shown.title) title.textContent = shown.title;
      if (words.textContent !== shown.words.join('')) {
        words.replaceChildren(...shown.words.map((each) => make('p', {}, each)));
        words.parentElement?.scrollTo(0, 0);
      }
      place.textContent = `${step + 1} of ${steps.length}`;
      run.hidden = isStill();
      run.setAttribute('aria-pressed', `${runs}`);
      // A button that goes out under the finger would take the focus with it.
      back.setAttribute('aria-disabled', `${step === 0}`);
      on.setAttribute('aria-disabled', `${step === last}`);
    },
  };
}
