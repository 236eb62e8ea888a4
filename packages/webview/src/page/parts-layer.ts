import type { PagePart } from '../protocol.ts';
import type { Box, Point, Size } from './camera.ts';
import { draw } from './dom.ts';
import { countedFindings, markOf, severities, worstOf } from './marks.ts';
import type { Picture } from './picture.ts';

/** The parts of a picture that can be reached, lit and walked through. */
export interface PartsLayer {
  /** Names in reading order, of those that stand in the picture. */
  readonly names: readonly string[];
  part(name: string): PagePart | undefined;
  /** What a part's symbols cover, in the drawing's units. */
  boxOf(name: string): Box | undefined;
  /** The part that an element of the picture belongs to. */
  nameAt(element: Element): string | undefined;
  /** Marks the parts at the cursor of the source. */
  light(names: readonly string[]): readonly string[];
  /** Shows the layer of a step of the tour and dims these shapes; undefined lights everything. */
  tell(step: number | undefined, dimmed: readonly number[]): void;
  /** What the layer of the step that is shown covers. */
  toldBox(): Box | undefined;
  /** The one part that the Tab key leads to. */
  setCurrent(name: string): void;
  current(): string | undefined;
  focus(name: string): void;
  /** Keeps the marks of findings readable at any scale. */
  scaleMarks(scale: number): void;
}

interface Reached {
  readonly part: PagePart;
  readonly groups: readonly SVGGraphicsElement[];
  readonly texts: readonly SVGGraphicsElement[];
  readonly box: Box;
}

const edge = 6;

/** A winding's own entry, else that of the part it belongs to. */
function ownerOf(name: string, parts: Readonly<Record<string, PagePart>>): string | undefined {
  if (Object.hasOwn(parts, name)) return name;
  const dot = name.lastIndexOf('.');
  return dot < 0 ? undefined : ownerOf(name.slice(0, dot), parts);
}

/**
 * Makes the symbols of a picture reachable. The picture must already be in the page, since only then
 * does it know how large things are.
 */
export function partsLayer(
  { layer, size }: Picture,
  parts: Readonly<Record<string, PagePart>>,
): PartsLayer {
  const groups = new Map<string, SVGGraphicsElement[]>();
  const texts = new Map<string, SVGGraphicsElement[]>();
  for (const element of layer.querySelectorAll<SVGGraphicsElement>('[data-part]')) {
    // What a step draws beside a part is not the part.
    if (element.closest('[data-layer]')) continue;
    const name = ownerOf(element.getAttribute('data-part') ?? '', parts);
    if (name === undefined) continue;
    const into = element.localName === 'text' ? texts : groups;
    into.set(name, [...(into.get(name) ?? []), element]);
  }
  const reached = new Map<string, Reached>();
  for (const [name, part] of Object.entries(parts)) {
    const own = groups.get(name);
    if (!own) continue;
    const box = boxAround(own.map((group) => boxIn(layer, group)));
    reached.set(name, { part, groups: own, texts: texts.get(name) ?? [], box });
  }
  const names = [...reached.keys()];
  hush(layer);
  for (const [name, each] of reached) makeReachable(name, each);
  const marks = placeMarks(layer, reached, size);
  let current = names[0];
  let told: readonly SVGGraphicsElement[] = [];
  const tabTo = (name: string | undefined, index: '0' | '-1'): void => {
    if (name !== undefined) reached.get(name)?.groups[0]?.setAttribute('tabindex', index);
  };
  tabTo(current, '0');

  const sets = (wanted: readonly string[]): readonly string[] =>
    names.filter((name) => wanted.some((each) => each === name || name.startsWith(`${each}.`)));

  return {
    names,
    part: (name) => reached.get(name)?.part,
    boxOf: (name) => reached.get(name)?.box,
    nameAt: (element) => {
      const name = element.closest('[data-part]')?.getAttribute('data-part') ?? '';
      const owner = ownerOf(name, parts);
      return owner !== undefined && reached.has(owner) ? owner : undefined;
    },
    light: (wanted) => {
      const lit = sets(wanted);
      for (const [name, { groups: own, texts: labels }] of reached) {
        for (const element of [...own, ...labels]) {
          element.classList.toggle('lit', lit.includes(name));
        }
      }
      return lit;
    },
    tell: (step, dimmed) => {
      const dim = new Set(step === undefined ? [] : dimmed);
      for (const shape of layer.querySelectorAll('[data-n]')) {
        shape.classList.toggle('dimmed', dim.has(Number(shape.getAttribute('data-n'))));
      }
      told = [...layer.querySelectorAll<SVGGraphicsElement>('[data-layer]')].filter((each) => {
        const isIt = each.getAttribute('data-layer') === `${step}`;
        each.classList.toggle('told', isIt);
        return isIt;
      });
    },
    toldBox: () => {
      const boxes = told.map((each) => boxIn(layer, each)).filter(({ width }) => width > 0);
      return boxes.length > 0 ? boxAround(boxes) : undefined;
    },
    setCurrent: (name) => {
      tabTo(current, '-1');
      current = name;
      tabTo(current, '0');
    },
    current: () => current,
    focus: (name) => reached.get(name)?.groups[0]?.focus({ preventScroll: true }),
    scaleMarks: (scale) => {
      const factor = Math.min(Math.max(0.65 / scale, 0.45), 1.6);
      for (const { mark, x, y } of marks) {
        mark.setAttribute('transform', `translate(${x} ${y}) scale(${factor})`);
      }
    },
  };
}

/** Wires and letters are not read one by one: the parts say what they are joined to. */
function hush(layer: SVGGElement): void {
  for (const element of layer.children) {
    if (element.localName !== 'g' || !element.hasAttribute('data-part')) {
      element.setAttribute('aria-hidden', 'true');
    }
  }
  for (const title of layer.querySelectorAll('[data-part] > title')) title.remove();
}

function makeReachable(name: string, { part, groups }: Reached): void {
  for (const [index, group] of groups.entries()) {
    const { x, y, width, height } = group.getBBox();
    group.append(
      draw('rect', {
        class: 'reach',
        x: x - edge,
        y: y - edge,
        width: width + 2 * edge,
        height: height + 2 * edge,
        rx: 4,
      }),
    );
    if (index > 0) {
      group.setAttribute('aria-hidden', 'true');
      continue;
    }
    group.setAttribute('tabindex', '-1');
    group.setAttribute('role', 'button');
    group.setAttribute('aria-label', spokenWith(name, part));
  }
}

/** What a screen reader says of a part: what it is, and what is found wrong with it. */
function spokenWith(name: string, { spoken, findings }: PagePart): string {
  const counts = severities
    .map((severity) => [severity, findings.filter((each) => each.severity === severity)] as const)
    .filter(([, own]) => own.length > 0)
    .map(([severity, own]) => countedFindings(severity, own.length));
  const said = findings.map(({ message }) => message).join(' ');
  const words = spoken === '' ? name : spoken;
  return counts.length === 0 ? words : `${words}. ${counts.join(', ')}: ${said}`;
}

/**
 * One mark to a part, of its worst finding, at a corner of its first symbol: the upper right, or
 * another where letters stand there.
 */
function placeMarks(
  layer: SVGGElement,
  reached: ReadonlyMap<string, Reached>,
  size: Size,
): readonly { mark: SVGGElement; x: number; y: number }[] {
  const letters = [...layer.querySelectorAll<SVGGraphicsElement>('text')].map((text) =>
    boxIn(layer, text),
  );
  const placed: { mark: SVGGElement; x: number; y: number }[] = [];
  for (const { part, groups } of reached.values()) {
    const worst = worstOf(part.findings);
    const [first] = groups;
    if (worst === undefined || !first) continue;
    const box = boxIn(layer, first);
    const mark = markOf(worst);
    const { x, y } = freeCorner(box, letters, size);
    layer.append(mark);
    placed.push({ mark, x, y });
  }
  return placed;
}

const half = 9;

/** The first corner where a mark covers no letters and stays on the paper. */
function freeCorner(box: Box, letters: readonly Box[], paper: Size): Point {
  const [left, right] = [box.x - 3, box.x + box.width + 3];
  const [top, bottom] = [box.y - 3, box.y + box.height + 3];
  const corners: readonly Point[] = [
    { x: right, y: top },
    { x: left, y: top },
    { x: left, y: bottom },
    { x: right, y: bottom },
  ];
  const isFree = ({ x, y }: Point): boolean =>
    x >= half &&
    y >= half &&
    x <= paper.width - half &&
    y <= paper.height - half &&
    letters.every(
      (text) =>
        x + half < text.x ||
        x - half > text.x + text.width ||
        y + half < text.y ||
        y - half > text.y + text.height,
    );
  return corners.find(isFree) ?? { x: right, y: top };
}

function boxAround(boxes: readonly Box[]): Box {
  const x = Math.min(...boxes.map((box) => box.x));
  const y = Math.min(...boxes.map((box) => box.y));
  return {
    x,
    y,
    width: Math.max(...boxes.map((box) => box.x + box.width)) - x,
    height: Math.max(...boxes.map((box) => box.y + box.height)) - y,
  };
}

/** What an element covers, in the units of the layer that it stands in. */
function boxIn(layer: SVGGElement, element: SVGGraphicsElement): Box {
  const { x, y, width, height } = element.getBBox();
  const toLayer = layer.getCTM()?.inverse();
  const own = element.getCTM();
  if (!toLayer || !own) return { x, y, width, height };
  const matrix = toLayer.multiply(own);
  const corners = [
    [x, y],
    [x + width, y],
    [x, y + height],
    [x + width, y + height],
  ].map(([left = 0, top = 0]) => new DOMPoint(left, top).matrixTransform(matrix));
  const lefts = corners.map((corner) => corner.x);
  const tops = corners.map((corner) => corner.y);
  const least = { x: Math.min(...lefts), y: Math.min(...tops) };
  return {
    ...least,
    width: Math.max(...lefts) - least.x,
    height: Math.max(...tops) - least.y,
  };
}
