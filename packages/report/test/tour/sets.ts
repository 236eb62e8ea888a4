import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Circuit } from '@setwright/circuit';
import * as views from '@setwright/diagram';
import { readReceivers } from '@setwright/language';
import type { Tour, TourOptions } from '../../src/tour/tour.ts';
import { tourOf } from '../../src/tour/tour-of.ts';

const folder = join(import.meta.dirname, '../../../../examples');

/** The names of the examples. */
export const examples = readdirSync(folder)
  .filter((name) => name.endsWith('.receiver'))
  .map((name) => name.replace('.receiver', ''));

export const textOf = (example: string): string =>
  readFileSync(join(folder, `${example}.receiver`), 'utf8');

/** The first set of a text. */
export function setOf(text: string): Circuit {
  const [circuit] = readReceivers(text, 'set.receiver').circuits;
  if (!circuit) throw new Error('no receiver in the text');
  return circuit;
}

export const tourIn = (text: string, options: TourOptions = {}): Tour =>
  tourOf(setOf(text), views, options);
