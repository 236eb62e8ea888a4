import { readdirSync, readFileSync } from 'node:fs';
import { readReceivers } from '@setwright/language';
import { describe, expect, test } from 'vitest';
import { allChecks } from '../src/all.ts';
import { checkCircuit } from '../src/run.ts';

const folder = new URL('../../../examples/', import.meta.url);
const files = readdirSync(folder).filter((name) => name.endsWith('.receiver'));

test('there are checks to run, and sets to run them on', () => {
  expect(allChecks.length).toBeGreaterThan(0);
  expect(files.length).toBeGreaterThan(0);
});

describe.each(files)('%s', (file) => {
  const { circuits, remarks } = readReceivers(readFileSync(new URL(file, folder), 'utf8'), file);

  test('can be read', () => {
    expect(circuits.length).toBeGreaterThan(0);
    expect(remarks.map(({ message }) => message)).toEqual([]);
    for (const { unread } of circuits) expect(unread).toEqual([]);
  });

  test('is good practice of its time: no check warns', () => {
    for (const circuit of circuits) {
      const serious = checkCircuit(circuit, allChecks).findings.filter(
        ({ severity }) => severity === 'error' || severity === 'warning',
      );
      expect(serious.map(({ check, message }) => `${check}: ${message}`)).toEqual([]);
    }
  });
});
