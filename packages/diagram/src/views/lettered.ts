import type { Label, LabelStyle } from '../scene.ts';
import { letterSize, textWidth } from '../text-width.ts';

/** A line of text as a label, whole however long, with its upper left corner where it is said. */
export function lettered(
  text: string,
  style: LabelStyle,
  left: number,
  top: number,
  part?: string,
): Label {
  const size = letterSize[style];
  return {
    text,
    style,
    at: { x: left, y: top + size * 0.8 },
    box: { left, top, right: left + textWidth(text, style), bottom: top + size },
    part,
  };
}

/** The size of a line of text. */
export const sizeOf = (text: string, style: LabelStyle) => ({
  width: textWidth(text, style),
  height: letterSize[style],
});
