import { expect, it } from 'vitest';
import { drawCircuit, layoutEngine } from '../src/index.ts';
import { circuitOf, exampleTexts } from './examples.ts';

const engine = layoutEngine();
const circuit = circuitOf(exampleTexts.find(([name]) => name === 'five-tube-trf')![1]);

async function shown(title: string) {
  const scene = await drawCircuit({ ...circuit, title }, engine);
  const label = scene.labels.find(({ style }) => style === 'title')!;
  return { text: label.text, broad: label.box.right - label.box.left <= scene.width };
}

it('a title is whole as long as it is no broader than the drawing', async () => {
  const title = 'Radio stage, detector, and three resistance-coupled stages with a power tube';
  expect(await shown(title)).toEqual({ text: title, broad: true });
});

it('and is cut where it is', async () => {
  const { text, broad } = await shown('A very long title of a set. '.repeat(30));
  expect(text.endsWith('…')).toBe(true);
  expect(broad).toBe(true);
});
