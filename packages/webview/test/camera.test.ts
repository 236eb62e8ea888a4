import { describe, expect, it } from 'vitest';
import { centred, dragged, fitted, isSeen, kept, onWindow, zoomed } from '../src/page/camera.ts';

const window = { width: 800, height: 600 };
const drawing = { width: 1600, height: 400 };

describe('where the reader stands', () => {
  it('fits the whole in, in the middle of what the buttons leave', () => {
    const camera = fitted(drawing, window);
    const box = onWindow(camera, { x: 0, y: 0, ...drawing });
    expect(box.x).toBeCloseTo(16);
    expect(box.x + box.width).toBeCloseTo(784);
    expect(box.y + box.height / 2).toBeCloseTo((16 + 600 - 48) / 2);
  });

  it('does not blow a small drawing up', () => {
    expect(fitted({ width: 10, height: 10 }, window).scale).toBe(1.5);
  });

  it('zooms about a point that stays where it is', () => {
    const camera = { x: 10, y: 20, scale: 1 };
    const at = { x: 300, y: 200 };
    const next = zoomed(camera, 2, at);
    expect(next.x + at.x / next.scale).toBeCloseTo(camera.x + at.x);
    expect(next.y + at.y / next.scale).toBeCloseTo(camera.y + at.y);
  });

  it('has a nearest and a furthest', () => {
    expect(zoomed({ x: 0, y: 0, scale: 1 }, 1e9, { x: 0, y: 0 }).scale).toBe(12);
    expect(zoomed({ x: 0, y: 0, scale: 1 }, 1e-9, { x: 0, y: 0 }).scale).toBe(0.05);
  });

  it('never loses the drawing out of sight', () => {
    for (const [right, down] of [
      [1e5, 0],
      [-1e5, 0],
      [0, 1e5],
      [0, -1e5],
    ] as const) {
      const camera = kept(dragged({ x: 0, y: 0, scale: 1 }, right, down), drawing, window);
      expect(isSeen(camera, { x: 0, y: 0, ...drawing }, window)).toBe(true);
    }
  });

  it('brings a point to the middle', () => {
    const camera = centred({ x: 0, y: 0, scale: 2 }, { x: 500, y: 100 }, window);
    const { x, y } = onWindow(camera, { x: 500, y: 100, width: 0, height: 0 });
    expect([x, y]).toEqual([400, 300]);
  });
});
