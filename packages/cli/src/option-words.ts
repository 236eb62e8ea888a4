// Readers of what stands behind an option; each refuses what nobody can have meant.

import { frequencyNamed } from '@setwright/report';
import { InvalidArgumentError } from 'commander';
import { type Shard, shardNamed } from './shard.ts';

/** Readings of a dial, in the order of the log. */
export function readingList(text: string): readonly number[] {
  const all = text.split(',').map((each) => each.trim());
  if (!all.every((each) => /^\d{1,6}(?:\.\d{1,6})?$/.test(each)))
    throw new InvalidArgumentError('Give readings of a dial, as in: 27, 43.5, 61.');
  return [...new Set(all.map(Number))];
}

/** Hertz, from kilocycles where no unit is said. */
export function frequency(text: string): number {
  const hertz = frequencyNamed(text);
  if (hertz === undefined)
    throw new InvalidArgumentError('Give a frequency, as in: 610, 1.2 Mc or 360 meters.');
  return hertz;
}

/** More stations than this are no list that somebody wrote. */
const MOST_STATIONS = 1000;

/** Stations in hertz, each once, from the lowest up. */
export function stationList(text: string): number[] {
  const names = text.split(',').filter((name) => name.trim() !== '');
  if (names.length === 0 || names.length > MOST_STATIONS)
    throw new InvalidArgumentError('Name stations, as in: 610, 780, 1.2 Mc.');
  return [...new Set(names.map(frequency))].sort((a, b) => a - b);
}

/** Larger or smaller than this is no scale that somebody means. */
const LARGEST_SCALE = 40;

/** Dots for each unit of a drawing. */
export function scale(text: string): number {
  const value = Number(text);
  if (!/^\d*\.?\d+$/.test(text) || value < 0.1 || value > LARGEST_SCALE)
    throw new InvalidArgumentError(`Give a number from 0.1 to ${LARGEST_SCALE}, as in: 2.`);
  return value;
}

/** More processes than this are a slip of the fingers. */
const MOST_JOBS = 256;

/** How many processes share the work. */
export function jobs(text: string): number {
  const value = Number(text);
  if (!/^\d{1,3}$/.test(text) || value < 1 || value > MOST_JOBS)
    throw new InvalidArgumentError(`Give a whole number from 1 to ${MOST_JOBS}.`);
  return value;
}

/** A time, more than none. */
export function seconds(text: string): number {
  const value = Number(text);
  if (!/^\d*\.?\d+$/.test(text) || value <= 0)
    throw new InvalidArgumentError('Give seconds, as in: 60.');
  return value;
}

/** Which of several runs this is. */
export function shard(text: string): Shard {
  const named = shardNamed(text);
  if (!named) throw new InvalidArgumentError('Give the run and how many there are, as in: 2/5.');
  return named;
}

/** A count. */
export function wholeNumber(text: string): number {
  if (!/^\d{1,9}$/.test(text)) throw new InvalidArgumentError('Give a whole number, 0 or more.');
  return Number(text);
}
