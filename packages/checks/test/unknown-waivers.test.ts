import { expect, it } from 'vitest';
import { readingExample } from '../src/examples/reading-example.ts';
import { unknownWaivers } from '../src/unknown-waivers.ts';
import { circuitOf } from './support.ts';

const ids = ['unused-post', 'dangling-end', 'grid-biased-positive'];
const meaning = (check: string) =>
  readingExample(['leak R1', `meant ${check} "so it was"\n    leak R1`]);

it('a meant that names no check is told of, with the nearest', () => {
  const text = meaning('grid-biased-positve');
  const [only, ...rest] = unknownWaivers(circuitOf(text), ids);
  expect(rest).toEqual([]);
  expect(only?.message).toBe('There is no check called "grid-biased-positve".');
  const [edit] = only?.fixes[0]?.edits ?? [];
  const mended = `${text.slice(0, edit?.place.start)}${edit?.text}${text.slice(edit?.place.end)}`;
  expect(mended).toBe(meaning('grid-biased-positive'));
});

it('a meant that names a check is well', () => {
  expect(unknownWaivers(circuitOf(meaning('unused-post')), ids)).toEqual([]);
});
