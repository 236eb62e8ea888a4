import type { PagePart, PartFinding } from '../protocol.ts';
import type { Box, Size } from './camera.ts';
import { make } from './dom.ts';
import { smallMark } from './marks.ts';
import { richText } from './rich-text.ts';

const severityWords = {
  error: 'Error',
  warning: 'Warning',
  information: 'Information',
  hint: 'Hint',
} as const;

export const findingLine = ({ severity, message }: PartFinding): HTMLElement =>
  make(
    'p',
    { class: 'finding-line' },
    smallMark(severity),
    make('strong', {}, `${severityWords[severity]}: `),
    message,
  );

export interface HoverCard {
  readonly element: HTMLElement;
  /** Shows a part's card beside a box of the window, after a moment. */
  offer(name: string, part: PagePart, box: () => Box, window: Size): void;
  /** Lets it go a moment later, unless the pointer went on to the card itself. */
  leave(): void;
  hide(): void;
}

const patience = 280;
const grace = 220;
const gap = 10;

/** The card that says of a symbol what the editor says of its name. */
export function hoverCard(): HoverCard {
  const element = make('div', { class: 'card', role: 'tooltip', hidden: true });
  let timer: ReturnType<typeof setTimeout> | undefined;
  let shownName: string | undefined;
  const hide = (): void => {
    clearTimeout(timer);
    element.hidden = true;
    shownName = undefined;
  };
  const later = (what: () => void, wait: number): void => {
    clearTimeout(timer);
    timer = setTimeout(what, wait);
  };
  const leave = (): void => later(hide, grace);
  const show = (name: string, part: PagePart, box: Box, window: Size): void => {
    shownName = name;
    element.replaceChildren(...part.findings.map(findingLine), ...richText(part.hover));
    element.hidden = false;
    const { offsetWidth: width, offsetHeight: height } = element;
    const below = box.y + box.height + gap;
    const fitsBelow = below + height <= window.height;
    const top = fitsBelow ? below : Math.max(gap, box.y - gap - height);
    const left = Math.min(Math.max(gap, box.x), Math.max(gap, window.width - width - gap));
    element.style.transform = `translate(${Math.round(left)}px, ${Math.round(top)}px)`;
  };
  element.addEventListener('pointerenter', () => clearTimeout(timer));
  element.addEventListener('pointerleave', leave);
  return {
    element,
    leave,
    hide,
    offer: (name, part, box, window) => {
      if (shownName === name) {
        clearTimeout(timer);
        return;
      }
      if (part.hover.trim() === '' && part.findings.length === 0) return;
      later(() => show(name, part, box(), window), shownName === undefined ? patience : grace);
    },
  };
}
