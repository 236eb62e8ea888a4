import type { Point, Size } from './camera.ts';
import { make } from './dom.ts';

/** Small pointers at the edge of the window towards what is lit out of sight. */
export interface EdgePointers {
  readonly element: HTMLElement;
  show(unseen: readonly { readonly name: string; readonly at: Point }[], window: Size): void;
}

const inset = 22;
/** The buttons that zoom stand along the bottom. */
const bottom = 52;
/** More than these would only be a crowd. */
const most = 4;

/** `go` is called when one is pressed. */
export function edgePointers(go: (name: string) => void): EdgePointers {
  const element = make('div', { class: 'edges' });
  return {
    element,
    show: (unseen, window) => {
      const buttons = unseen.slice(0, most).map(({ name, at }) => {
        const middle = { x: window.width / 2, y: window.height / 2 };
        const angle = Math.atan2(at.y - middle.y, at.x - middle.x);
        const x = Math.min(Math.max(at.x, inset), window.width - inset);
        const y = Math.min(Math.max(at.y, inset), window.height - bottom);
        const needle = make('span', { class: 'needle', 'aria-hidden': 'true' });
        needle.style.transform = `rotate(${angle}rad)`;
        const button = make(
          'button',
          { class: 'edge', type: 'button', 'aria-label': `Show ${name}, which is out of sight` },
          needle,
          make('span', { 'aria-hidden': 'true' }, name),
        );
        button.style.left = `${x}px`;
        button.style.top = `${y}px`;
        // Held inside the window at whichever edge it stands.
        const [shiftX, shiftY] = [-(100 * x) / window.width, -(100 * y) / window.height];
        button.style.transform = `translate(${shiftX}%, ${shiftY}%)`;
        button.addEventListener('click', () => go(name));
        return button;
      });
      element.replaceChildren(...buttons);
    },
  };
}
