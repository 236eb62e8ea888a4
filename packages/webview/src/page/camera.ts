/** Where the reader stands over a drawing. Plain numbers; y runs downwards. */
export interface Camera {
  /** The drawing's point at the window's upper left corner. */
  readonly x: number;
  readonly y: number;
  /** Points of the screen for one unit of the drawing. */
  readonly scale: number;
}

/** The same, whatever the size of the window: the drawing's point in its middle. */
export interface Stand {
  readonly middle: Point;
  readonly scale: number;
}

export interface Size {
  readonly width: number;
  readonly height: number;
}

export interface Point {
  readonly x: number;
  readonly y: number;
}

export interface Box extends Size, Point {}

const leastScale = 0.05;
const mostScale = 12;
const margin = 16;
/** The buttons that zoom stand along the lower edge; the whole is shown above them. */
const lowerEdge = 48;

const between = (value: number, least: number, most: number): number =>
  Math.min(Math.max(value, least), most);

/** The whole drawing in the middle of the window, never larger than life and a half. */
export function fitted(drawing: Size, window: Size): Camera {
  const scale = between(
    Math.min(
      (window.width - 2 * margin) / Math.max(drawing.width, 1),
      (window.height - margin - lowerEdge) / Math.max(drawing.height, 1),
    ),
    leastScale,
    1.5,
  );
  return {
    scale,
    x: (drawing.width - window.width / scale) / 2,
    y: drawing.height / 2 - (window.height + margin - lowerEdge) / 2 / scale,
  };
}

/** Nearer or further by a factor; what lies under `at` (points of the window) stays there. */
export function zoomed(camera: Camera, factor: number, at: Point): Camera {
  const scale = between(camera.scale * factor, leastScale, mostScale);
  return {
    scale,
    x: camera.x + at.x / camera.scale - at.x / scale,
    y: camera.y + at.y / camera.scale - at.y / scale,
  };
}

/** Moves what is seen by points of the screen, as if the paper were dragged. */
export const dragged = (camera: Camera, right: number, down: number): Camera => ({
  ...camera,
  x: camera.x - right / camera.scale,
  y: camera.y - down / camera.scale,
});

/** After an edit moved a landmark of the drawing, moves along with it, so that the eye need not. */
export const along = ({ middle, scale }: Stand, before: Point, after: Point): Stand => ({
  // In brackets: what has not moved stays to the last digit.
  middle: { x: middle.x + (after.x - before.x), y: middle.y + (after.y - before.y) },
  scale,
});

/** With a point of the drawing in the middle of the window. */
export const centred = (camera: Camera, at: Point, window: Size): Camera => ({
  ...camera,
  x: at.x - window.width / camera.scale / 2,
  y: at.y - window.height / camera.scale / 2,
});

export const standOf = ({ x, y, scale }: Camera, { width, height }: Size): Stand => ({
  middle: { x: x + width / scale / 2, y: y + height / scale / 2 },
  scale,
});

export const cameraAt = ({ middle, scale }: Stand, { width, height }: Size): Camera => ({
  x: middle.x - width / scale / 2,
  y: middle.y - height / scale / 2,
  scale,
});

/** At least a strip of the drawing stays in the window, so that nobody gets lost. */
export function kept(camera: Camera, drawing: Size, window: Size): Camera {
  const strip = 60 / camera.scale;
  const wide = window.width / camera.scale;
  const high = window.height / camera.scale;
  return {
    ...camera,
    x: between(camera.x, strip - wide, Math.max(drawing.width - strip, strip - wide)),
    y: between(camera.y, strip - high, Math.max(drawing.height - strip, strip - high)),
  };
}

/** A box of the drawing in points of the window. */
export const onWindow = (camera: Camera, box: Box): Box => ({
  x: (box.x - camera.x) * camera.scale,
  y: (box.y - camera.y) * camera.scale,
  width: box.width * camera.scale,
  height: box.height * camera.scale,
});

/** Whether any of a box of the drawing is seen. */
export function isSeen(camera: Camera, box: Box, window: Size): boolean {
  const { x, y, width, height } = onWindow(camera, box);
  return x < window.width && y < window.height && x + width > 0 && y + height > 0;
}

export const middleOf = (box: Box): Point => ({
  x: box.x + box.width / 2,
  y: box.y + box.height / 2,
});
