import {
  type Camera,
  cameraAt,
  centred,
  dragged,
  fitted,
  kept,
  type Point,
  type Size,
  type Stand,
  standOf,
  zoomed,
} from './camera.ts';
import { isStill } from './dom.ts';

/** The window over the drawing: where the reader stands, and how they move. */
export interface DrawingWindow {
  /** What is seen in the window as large as it is now. */
  camera(): Camera;
  /** Where the reader stands, whatever the size of the window. */
  stand(): Stand;
  isFitted(): boolean;
  size(): Size;
  /** A new drawing; `at` is where to stand, else the whole is fitted in. */
  take(drawing: Size, at: Stand | undefined): void;
  fit(): void;
  /** Life size, with the middle where it is. */
  lifeSize(): void;
  zoomBy(factor: number): void;
  dragBy(right: number, down: number): void;
  centre(at: Point): void;
}

const dragThreshold = 4;
/** Turns of a wheel within this time are one gesture. */
const gesture = 250;

/**
 * Lets `stage` be dragged, turned with a wheel, pinched. `moved` is told of each change at once, so
 * that nothing of it is lost when the page is put away the next moment.
 */
export function drawingWindow(stage: HTMLElement, moved: () => void): DrawingWindow {
  let drawing: Size = { width: 1, height: 1 };
  /** Where the reader stands; undefined while the whole is kept in sight. */
  let chosen: Stand | undefined;
  let glide = 0;
  const size = (): Size => ({
    width: Math.max(stage.clientWidth, 1),
    height: Math.max(stage.clientHeight, 1),
  });
  const middle = (): Point => ({ x: size().width / 2, y: size().height / 2 });
  // Reckoned anew from where the reader stands, so that a window that was small for a moment, as
  // while it is being built, leaves nothing behind.
  const camera = (): Camera =>
    chosen ? kept(cameraAt(chosen, size()), drawing, size()) : fitted(drawing, size());
  const stand = (next: Camera): void => {
    cancelAnimationFrame(glide);
    chosen = standOf(kept(next, drawing, size()), size());
    moved();
  };
  const fit = (): void => {
    cancelAnimationFrame(glide);
    chosen = undefined;
    moved();
  };
  /** Goes there in a fifth of a second, so that the eye can follow. */
  const glideTo = (goal: Camera): void => {
    if (isStill()) {
      stand(goal);
      return;
    }
    const from = camera();
    const started = performance.now();
    const step = (now: number): void => {
      const share = Math.min(1, Math.max(0, (now - started) / 180));
      const eased = 1 - (1 - share) ** 3;
      stand({
        scale: goal.scale,
        x: from.x + (goal.x - from.x) * eased,
        y: from.y + (goal.y - from.y) * eased,
      });
      if (share < 1) glide = requestAnimationFrame(step);
    };
    step(started);
  };

  const moves: Moves = {
    zoom: (factor, at) => stand(zoomed(camera(), factor, at)),
    drag: (right, down) => stand(dragged(camera(), right, down)),
  };
  listenToWheel(stage, moves);
  listenToPointers(stage, moves);
  new ResizeObserver(moved).observe(stage);

  return {
    camera,
    stand: () => chosen ?? standOf(camera(), size()),
    isFitted: () => chosen === undefined,
    size,
    take: (next, at) => {
      cancelAnimationFrame(glide);
      drawing = next;
      chosen = at;
      moved();
    },
    fit,
    lifeSize: () => stand(zoomed(camera(), 1 / camera().scale, middle())),
    zoomBy: (factor) => stand(zoomed(camera(), factor, middle())),
    dragBy: (right, down) => stand(dragged(camera(), right, down)),
    centre: (at) => glideTo(centred(camera(), at, size())),
  };
}

interface Moves {
  zoom(factor: number, at: Point): void;
  drag(right: number, down: number): void;
}

const placeIn = (stage: HTMLElement, event: MouseEvent): Point => {
  const box = stage.getBoundingClientRect();
  return { x: event.clientX - box.left, y: event.clientY - box.top };
};

/** A wheel zooms; two fingers on a pad move the paper, and zoom when they pinch. */
function listenToWheel(stage: HTMLElement, moves: Moves): void {
  let last = 0;
  let isPad = false;
  stage.addEventListener(
    'wheel',
    (event) => {
      event.preventDefault();
      const { deltaX, deltaY, deltaMode, ctrlKey, metaKey, shiftKey, timeStamp } = event;
      if (timeStamp - last > gesture) {
        isPad = deltaMode === WheelEvent.DOM_DELTA_PIXEL && (deltaX !== 0 || Math.abs(deltaY) < 40);
      }
      last = timeStamp;
      const lines = deltaMode === WheelEvent.DOM_DELTA_PIXEL ? 1 : 33;
      if (ctrlKey || metaKey) {
        moves.zoom(Math.exp(-deltaY * lines * 0.01), placeIn(stage, event));
      } else if (shiftKey) moves.drag(-(deltaX || deltaY) * lines, 0);
      else if (isPad) moves.drag(-deltaX * lines, -deltaY * lines);
      else moves.zoom(Math.exp(-deltaY * lines * 0.0016), placeIn(stage, event));
    },
    { passive: false },
  );
}

/** One pointer drags the paper, two pinch it. A press that does not move remains a click. */
function listenToPointers(stage: HTMLElement, moves: Moves): void {
  const pointers = new Map<number, Point>();
  let start: Point | undefined;
  let isDragging = false;
  const end = (event: PointerEvent): void => {
    pointers.delete(event.pointerId);
    if (pointers.size === 0) {
      start = undefined;
      stage.classList.remove('dragging');
    }
  };
  stage.addEventListener('pointerdown', (event) => {
    if (event.pointerType === 'mouse' && event.button > 1) return;
    if ((event.target as Element).closest('button, .card')) return;
    pointers.set(event.pointerId, placeIn(stage, event));
    start ??= placeIn(stage, event);
    isDragging = false;
  });
  stage.addEventListener('pointermove', (event) => {
    const before = pointers.get(event.pointerId);
    if (!before || !start) return;
    const now = placeIn(stage, event);
    if (!isDragging && Math.hypot(now.x - start.x, now.y - start.y) < dragThreshold) return;
    if (!isDragging) {
      isDragging = true;
      stage.setPointerCapture(event.pointerId);
      stage.classList.add('dragging');
    }
    const other = [...pointers].find(([id]) => id !== event.pointerId)?.[1];
    if (other) {
      const apart = Math.hypot(before.x - other.x, before.y - other.y);
      const now2 = Math.hypot(now.x - other.x, now.y - other.y);
      if (apart > 0) {
        moves.zoom(now2 / apart, { x: (now.x + other.x) / 2, y: (now.y + other.y) / 2 });
      }
    } else moves.drag(now.x - before.x, now.y - before.y);
    pointers.set(event.pointerId, now);
  });
  stage.addEventListener('pointerup', end);
  stage.addEventListener('pointercancel', end);
  // The click that ends a drag is none.
  stage.addEventListener(
    'click',
    (event) => {
      if (isDragging) event.stopPropagation();
      isDragging = false;
    },
    { capture: true },
  );
}
