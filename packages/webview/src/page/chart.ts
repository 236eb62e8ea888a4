import { make } from './dom.ts';
import type { Picture } from './picture.ts';
import { chartStyle } from './picture-style.ts';
import { sheetsOf } from './sheets.ts';

/** A picture without parts: it is as wide as the panel, and is read from top to bottom. */
export interface Chart {
  readonly element: HTMLElement;
  show(picture: Picture): void;
}

/** So much larger than drawn at most. */
const mostEnlarged = 1.4;

export function chart(): Chart {
  const element = make('div', { class: 'chart', hidden: true });
  const shadow = element.attachShadow({ mode: 'open' });
  return {
    element,
    show: ({ svg, size, style, title, description }) => {
      shadow.adoptedStyleSheets = sheetsOf(style, chartStyle);
      svg.setAttribute('viewBox', `0 0 ${size.width} ${size.height}`);
      svg.setAttribute('role', 'img');
      svg.setAttribute('aria-label', [title, description].filter((each) => each !== '').join('. '));
      element.style.maxWidth = `${Math.round(size.width * mostEnlarged)}px`;
      shadow.replaceChildren(svg);
    },
  };
}
