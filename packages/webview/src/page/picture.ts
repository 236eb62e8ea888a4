import type { Size } from './camera.ts';
import { draw } from './dom.ts';

/** A picture that is safe to show: nothing in it runs, fetches or styles anything else. */
export interface Picture {
  readonly svg: SVGSVGElement;
  /** Everything of the picture but the frame around it. */
  readonly layer: SVGGElement;
  readonly style: string;
  readonly size: Size;
  readonly title: string;
  readonly description: string;
}

const svgSpace = 'http://www.w3.org/2000/svg';

const known = new Set([
  'circle',
  'clipPath',
  'defs',
  'ellipse',
  'g',
  'line',
  'linearGradient',
  'marker',
  'path',
  'pattern',
  'polygon',
  'polyline',
  'rect',
  'stop',
  'symbol',
  'text',
  'title',
  'tspan',
  'use',
]);

/** Reads an SVG text as XML and takes over what is known to be harmless; undefined if it is none. */
export function pictureFrom(text: string): Picture | undefined {
  // Taken out beforehand: the page's policy would refuse it, and say so, while it is being read.
  const styles: string[] = [];
  const bare = text.replace(/<style[^>]*>([^<]*)<\/style>/g, (_, own: string) => {
    styles.push(own);
    return '';
  });
  const read = new DOMParser().parseFromString(bare, 'image/svg+xml');
  const root = read.documentElement;
  if (root.namespaceURI !== svgSpace || root.localName !== 'svg') return undefined;
  if (read.querySelector('parsererror')) return undefined;
  const child = (name: string): Element | undefined =>
    [...root.children].find((each) => each.localName === name);
  const [, , width, height] = (root.getAttribute('viewBox') ?? '').split(/[\s,]+/).map(Number);
  const size = {
    width: positive(width) ?? positive(Number.parseFloat(root.getAttribute('width') ?? '')) ?? 800,
    height:
      positive(height) ?? positive(Number.parseFloat(root.getAttribute('height') ?? '')) ?? 600,
  };
  const style = styles.join('\n');
  const layer = draw('g', { class: 'layer' });
  for (const name of ['font-family', 'font-size']) {
    const value = root.getAttribute(name);
    if (value !== null) layer.setAttribute(name, value);
  }
  for (const each of root.children) {
    if (each.localName === 'title' || each.localName === 'desc') continue;
    const safe = harmless(each);
    if (safe) layer.append(safe);
  }
  // Paper is as large as the drawing, and not as large as the window.
  for (const paper of layer.querySelectorAll(':scope > rect')) {
    if (paper.getAttribute('width') === '100%') paper.setAttribute('width', `${size.width}`);
    if (paper.getAttribute('height') === '100%') paper.setAttribute('height', `${size.height}`);
  }
  const svg = draw('svg', { class: root.getAttribute('class') ?? '' }, layer);
  return {
    svg,
    layer,
    style: /@import|url\s*\(|\\/i.test(style) ? '' : style,
    size,
    title: child('title')?.textContent ?? '',
    description: child('desc')?.textContent ?? '',
  };
}

const positive = (value: number | undefined): number | undefined =>
  value !== undefined && Number.isFinite(value) && value > 0 ? value : undefined;

/** A copy with known elements and harmless attributes only. */
function harmless(element: Element): SVGElement | undefined {
  if (element.namespaceURI !== svgSpace || !known.has(element.localName)) return undefined;
  const copy = document.createElementNS(svgSpace, element.localName) as SVGElement;
  for (const { localName, name, value } of element.attributes) {
    if (isHarmless(localName, name, value)) copy.setAttribute(name, value);
  }
  for (const node of element.childNodes) {
    if (node.nodeType === Node.TEXT_NODE) copy.append(node.textContent ?? '');
    else if (node.nodeType === Node.ELEMENT_NODE) {
      const safe = harmless(node as Element);
      if (safe) copy.append(safe);
    }
  }
  return copy;
}

function isHarmless(localName: string, name: string, value: string): boolean {
  if (/^on/i.test(localName) || localName === 'style' || name.startsWith('xmlns')) return false;
  if (name.includes(':') && localName !== 'href') return false;
  if (localName === 'href') return name === 'href' && value.startsWith('#');
  return !/url\s*\(/i.test(value) || /^\s*url\s*\(\s*#[\w-]+\s*\)\s*$/i.test(value);
}
