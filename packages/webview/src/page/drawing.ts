import type { Page, PagePart, TourStep } from '../protocol.ts';
import { along, type Box, isSeen, middleOf, onWindow, type Stand } from './camera.ts';
import { make } from './dom.ts';
import { type EdgePointers, edgePointers } from './edge-pointers.ts';
import { hoverCard } from './hover-card.ts';
import { type PartsLayer, partsLayer } from './parts-layer.ts';
import type { Picture } from './picture.ts';
import { pictureStyle } from './picture-style.ts';
import { sheetsOf } from './sheets.ts';
import { drawingWindow } from './window.ts';
import { zoomButtons } from './zoom-buttons.ts';

/** What the drawing tells the page around it. */
export interface DrawingEvents {
  /** Show where a part is declared; `stay` keeps the focus here. */
  reveal(part: string, stay: boolean): void;
  moved(stand: Stand, isFitted: boolean): void;
}

/** The drawing with everything that can be done to it. */
export interface Drawing {
  readonly element: HTMLElement;
  /**
   * Paints a picture. `at` is where to stand; undefined fits the whole in. `isSame` is true when it
   * is the picture of before, drawn anew after an edit: then the reader stays where they are.
   */
  show(picture: Picture, parts: Page['parts'], at: Stand | undefined, isSame: boolean): void;
  /** Takes over what is known of the parts, and leaves the picture. */
  light(names: readonly string[]): void;
  /** Shows what a step of the tour draws over the set, by its number; undefined shows none. */
  tell(number: number | undefined, step: TourStep | undefined): void;
  /** Has a reader who looks at a corner of the set look at what the step draws. */
  bringTold(): void;
  /** Has it run along its way. */
  run(runs: boolean): void;
  goTo(name: string): void;
  part(name: string): PagePart | undefined;
  names(): readonly string[];
}

const keysHint =
  'Arrow keys go from part to part, Enter goes to its line, Space shows its line and stays, N goes ' +
  'to the next finding. Shift with arrow keys moves the paper, plus and minus zoom, 0 shows the ' +
  'whole, 1 is life size.';

export function drawing(events: DrawingEvents): Drawing {
  const host = make('div', { class: 'picture' });
  const shadow = host.attachShadow({ mode: 'open' });
  const card = hoverCard();
  const hint = make('p', { id: 'keys', class: 'unseen' }, keysHint);
  const stage = make('div', { class: 'stage', 'aria-describedby': 'keys' });
  let layer: PartsLayer | undefined;
  let svg: SVGSVGElement | undefined;
  let lit: readonly string[] = [];

  const view = drawingWindow(stage, () => {
    aim();
    events.moved(view.stand(), view.isFitted());
  });
  const pointers: EdgePointers = edgePointers((name) => goTo(name));
  const buttons = zoomButtons({
    nearer: () => view.zoomBy(1.25),
    further: () => view.zoomBy(0.8),
    fit: () => view.fit(),
  });
  stage.append(host, pointers.element, buttons.element, card.element, hint);

  function aim(): void {
    const { x, y, scale } = view.camera();
    const { width, height } = view.size();
    svg?.setAttribute('viewBox', `${x} ${y} ${width / scale} ${height / scale}`);
    layer?.scaleMarks(scale);
    buttons.say(scale, view.isFitted());
    pointUnseen();
  }

  function pointUnseen(): void {
    const camera = view.camera();
    const window = view.size();
    const unseen = lit.flatMap((name) => {
      const box = layer?.boxOf(name);
      return box && !isSeen(camera, box, window)
        ? [{ name, at: middleOf(onWindow(camera, box)) }]
        : [];
    });
    pointers.show(unseen, window);
  }

  function light(names: readonly string[]): void {
    lit = layer?.light(names) ?? [];
    pointUnseen();
  }

  const seenBox = (name: string): Box =>
    onWindow(view.camera(), layer?.boxOf(name) ?? { x: 0, y: 0, width: 0, height: 0 });

  function offerCard(name: string): void {
    const part = layer?.part(name);
    if (part) card.offer(name, part, () => seenBox(name), view.size());
  }

  /** Brings a part into sight where it is not. */
  function bring(name: string): void {
    const box = layer?.boxOf(name);
    if (box && !isSeen(view.camera(), box, view.size())) view.centre(middleOf(box));
  }

  function bringTold(): void {
    const box = layer?.toldBox();
    if (!box || view.isFitted()) return;
    const camera = view.camera();
    const window = view.size();
    if (!isSeen(camera, box, window)) view.centre(middleOf(box));
  }

  function goTo(name: string): void {
    const box = layer?.boxOf(name);
    if (!layer || !box) return;
    view.centre(middleOf(box));
    layer.setCurrent(name);
    layer.focus(name);
  }

  const nameOf = (event: Event): string | undefined => {
    const [inner] = event.composedPath();
    return inner instanceof Element ? layer?.nameAt(inner) : undefined;
  };

  shadow.addEventListener('click', (event) => {
    const name = nameOf(event);
    if (name === undefined) return;
    layer?.setCurrent(name);
    events.reveal(name, false);
  });
  shadow.addEventListener('pointerover', (event) => {
    const name = nameOf(event);
    if (name === undefined || stage.classList.contains('dragging')) card.leave();
    else offerCard(name);
  });
  stage.addEventListener('pointerleave', card.leave);
  stage.addEventListener('pointerdown', (event) => {
    if (!(event.target as Element).closest('.card')) card.hide();
  });
  stage.addEventListener('wheel', card.hide, { passive: true });
  shadow.addEventListener('focusin', (event) => {
    const name = nameOf(event);
    if (name === undefined || !(event.target as Element).matches(':focus-visible')) return;
    bring(name);
    offerCard(name);
  });
  shadow.addEventListener('focusout', card.leave);

  const walk = (to: (at: number, count: number) => number): void => {
    const names = layer?.names ?? [];
    if (!layer || names.length === 0) return;
    const at = Math.max(0, names.indexOf(layer.current() ?? ''));
    // Whoever comes to the drawing begins with the part that Tab leads to.
    const next = shadow.activeElement ? to(at, names.length) : at;
    const name = names[(next + names.length) % names.length];
    if (name === undefined) return;
    layer.setCurrent(name);
    layer.focus(name);
  };

  const hasFindings = (): boolean =>
    (layer?.names ?? []).some((name) => (layer?.part(name)?.findings.length ?? 0) > 0);
  const nextFinding = (step: 1 | -1): void => {
    const names = layer?.names ?? [];
    const at = names.indexOf(layer?.current() ?? '');
    for (let count = 1; count <= names.length; count += 1) {
      const name = names[(at + step * count + names.length * 2) % names.length];
      if (name !== undefined && (layer?.part(name)?.findings.length ?? 0) > 0) {
        goTo(name);
        return;
      }
    }
  };

  const keys: Readonly<Record<string, () => void>> = {
    ArrowRight: () => walk((at) => at + 1),
    ArrowDown: () => walk((at) => at + 1),
    ArrowLeft: () => walk((at) => at - 1),
    ArrowUp: () => walk((at) => at - 1),
    Home: () => walk(() => 0),
    End: () => walk((_, count) => count - 1),
    n: () => nextFinding(1),
    N: () => nextFinding(-1),
    '+': () => view.zoomBy(1.25),
    '=': () => view.zoomBy(1.25),
    '-': () => view.zoomBy(0.8),
    '0': () => view.fit(),
    '1': () => view.lifeSize(),
    Escape: card.hide,
  };
  const paper: Readonly<Record<string, () => void>> = {
    ArrowRight: () => view.dragBy(-60, 0),
    ArrowLeft: () => view.dragBy(60, 0),
    ArrowDown: () => view.dragBy(0, -60),
    ArrowUp: () => view.dragBy(0, 60),
  };
  stage.addEventListener('keydown', (event) => {
    const { key, shiftKey, ctrlKey, metaKey, altKey } = event;
    if (ctrlKey || metaKey || altKey) return;
    if ((event.target as Element).closest('button')) return;
    const hasParts = (layer?.names.length ?? 0) > 0;
    const current = shadow.activeElement ? layer?.current() : undefined;
    if ((key === 'Enter' || key === ' ') && current !== undefined) {
      event.preventDefault();
      events.reveal(current, key === ' ');
      return;
    }
    const does = (shiftKey || !hasParts ? paper[key] : undefined) ?? keys[key];
    // Where nothing is found wrong the key may mean something to the page.
    if (!does || (key === 'n' && !hasFindings())) return;
    event.preventDefault();
    does();
  });

  return {
    element: stage,
    light,
    run: (runs) => host.classList.toggle('running', runs),
    tell: (number, step) => {
      host.classList.toggle('touring', number !== undefined);
      layer?.tell(number, step?.dimmed ?? []);
      if (number === undefined || !layer) return;
      svg?.setAttribute('aria-label', step?.spoken ?? '');
    },
    bringTold,
    goTo,
    part: (name) => layer?.part(name),
    names: () => layer?.names ?? [],
    show: (picture, parts, at, isSame) => {
      const before = isSame ? layer : undefined;
      const stood = view.stand();
      const wasFitted = view.isFitted();
      const focused = document.hasFocus() && shadow.activeElement ? layer?.current() : undefined;
      const current = layer?.current();
      card.hide();
      shadow.adoptedStyleSheets = sheetsOf(picture.style, pictureStyle);
      ({ svg } = picture);
      const window = view.size();
      // Things must have a size before they can be measured; where they stand comes after.
      svg.setAttribute('viewBox', `0 0 ${window.width} ${window.height}`);
      shadow.replaceChildren(svg);
      layer = partsLayer(picture, parts);
      nameFor(svg, stage, picture, layer.names.length > 0);
      if (current !== undefined && layer.names.includes(current)) layer.setCurrent(current);
      if (before && !wasFitted) view.take(picture.size, withLandmark(stood, before, layer));
      else view.take(picture.size, at);
      light(lit);
      if (focused !== undefined && layer.names.includes(focused)) layer.focus(focused);
    },
  };
}

/** Says what the picture is: a group of parts that can be walked, or one image. */
function nameFor(
  svg: SVGSVGElement,
  stage: HTMLElement,
  { title, description }: Picture,
  hasParts: boolean,
): void {
  svg.setAttribute('role', hasParts ? 'group' : 'img');
  svg.setAttribute('aria-label', [title, description].filter((each) => each !== '').join('. '));
  stage.setAttribute('role', 'group');
  stage.setAttribute('aria-label', 'Drawing');
  stage.setAttribute('tabindex', hasParts ? '-1' : '0');
}

/** Where the reader stood, moved along with the part that was nearest the middle of the window. */
function withLandmark(stood: Stand, before: PartsLayer, after: PartsLayer): Stand {
  const { middle } = stood;
  const distance = (name: string): number => {
    const box = before.boxOf(name);
    if (!box || !after.boxOf(name)) return Number.POSITIVE_INFINITY;
    const { x, y } = middleOf(box);
    return Math.hypot(x - middle.x, y - middle.y);
  };
  const nearest = before.names
    .map((name) => ({ name, distance: distance(name) }))
    .filter((each) => Number.isFinite(each.distance))
    .sort((a, b) => a.distance - b.distance)[0];
  const [old, young] = [
    nearest && before.boxOf(nearest.name),
    nearest && after.boxOf(nearest.name),
  ];
  return old && young ? along(stood, middleOf(old), middleOf(young)) : stood;
}
