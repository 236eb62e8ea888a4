import type { Finding, Severity } from '@setwright/circuit';
import { describe, expect, it } from 'vitest';
import type { Check } from '../src/check.ts';
import { byPrecedence } from '../src/precedence.ts';
import { checkCircuit } from '../src/run.ts';
import { circuitOf } from './support.ts';

const place = { file: 'x', start: 0, end: 1 };
const said = (check: string, parts: string[], severity: Severity = 'error'): Finding => ({
  check,
  severity,
  message: check,
  why: '',
  cure: '',
  place,
  related: [],
  parts,
  fixes: [],
});
const left = (...findings: Finding[]) => byPrecedence(findings).map(({ check }) => check);

describe('who speaks first', () => {
  it('plate voltage on a filament silences what else is said of that tube', () => {
    expect(
      left(said('filament-over-voltage', ['V1']), said('plate-voltage-on-filament', ['V1'])),
    ).toEqual(['plate-voltage-on-filament']);
  });

  it('a fault of another tube is told all the same', () => {
    expect(
      left(said('filament-open', ['V2']), said('plate-voltage-on-filament', ['V1'])),
    ).toHaveLength(2);
  });

  it('a battery not joined in explains the plates that have no supply', () => {
    expect(
      left(said('plate-without-supply', ['V1']), said('batteries-unjoined', ['B', 'V1'])),
    ).toEqual(['batteries-unjoined']);
  });

  it('a mirrored socket is told once, not as three faults', () => {
    expect(
      left(
        said('plate-without-supply', ['V1']),
        said('plate-voltage-on-grid', ['V1']),
        said('socket-mirrored', ['V1']),
      ),
    ).toEqual(['socket-mirrored']);
  });

  it('a milder finding never silences a graver one', () => {
    expect(
      left(
        said('filament-over-voltage', ['V1'], 'information'),
        said('grid-without-dc-return', ['V1']),
      ),
    ).toHaveLength(2);
  });

  it('a floating grid says better what its dangling end would say', () => {
    expect(
      left(said('dangling-end', ['V1'], 'warning'), said('grid-without-dc-return', ['V1'])),
    ).toEqual(['grid-without-dc-return']);
  });
});

const speaks = (needsWholeText: boolean): Check => ({
  id: 'tap-name',
  group: 'Batteries',
  severity: 'warning',
  summary: '',
  why: '',
  silent: [],
  source: 'common practice',
  fails: '',
  passes: '',
  needsWholeText,
  find: ({ circuit }) => [said('tap-name', [circuit.parts[0]?.name ?? ''], 'warning')],
});

describe('waivers', () => {
  const set = (meant: string, inside = '') =>
    circuitOf(`receiver "W" {\n battery A dry { tap A- tap A+ 1.5 V ${inside} }\n ${meant}\n}`);

  it('a departure that is meant is silent, and kept with its reason', () => {
    const { findings, waived } = checkCircuit(set('meant tap-name "as printed"'), [speaks(false)]);
    expect(findings).toEqual([]);
    expect(waived.map(({ waiver }) => waiver.reason)).toEqual(['as printed']);
  });

  it('inside a part it speaks for that part alone', () => {
    const inside = 'meant tap-name "as printed"';
    expect(checkCircuit(set('', inside), [speaks(false)]).findings).toEqual([]);
    const other = circuitOf(
      `receiver "W" {\n battery A dry { tap A- tap A+ 1.5 V }\n battery B dry { tap B- tap B+45\n ${inside} }\n}`,
    );
    expect(checkCircuit(other, [speaks(false)]).findings).toHaveLength(1);
  });

  it('a check that does not exist cannot be meant', () => {
    const { findings } = checkCircuit(set('meant tap-nmae "as printed"'), []);
    expect(findings.map(({ check, message }) => [check, message])).toEqual([
      ['unknown-word', 'There is no check called "tap-nmae".'],
    ]);
  });
});

describe('a text with a line that cannot be read', () => {
  const circuit = circuitOf(
    'receiver "W" {\n battery A dry { tap A- tap A+ 1.5 V }\n wire A- to\n}',
  );

  it('holds back the checks that the line could mislead', () => {
    const { findings, waiting } = checkCircuit(circuit, [speaks(true)]);
    expect(findings).toEqual([]);
    expect(waiting).toEqual(['tap-name']);
  });

  it('lets the others go on', () => {
    expect(checkCircuit(circuit, [speaks(false)]).findings).toHaveLength(1);
  });
});

describe('a text with a size that cannot be read', () => {
  const circuit = circuitOf('receiver "W" {\n battery A dry { tap A- tap A+ 1.5 }\n}');
  const reckons: Check = {
    ...speaks(true),
    find: (study) => (study.solved ? speaks(true).find(study) : []),
  };

  it('holds back the checks that reckon with sizes, and says what they wait for', () => {
    const whole = { ...circuit, unread: [] };
    const { findings, waiting, waitsFor } = checkCircuit(whole, [reckons]);
    expect(findings).toEqual([]);
    expect(waiting).toEqual(['tap-name']);
    expect(waitsFor.length).toBeGreaterThan(0);
  });

  it('lets those go on that only look at wires', () => {
    expect(checkCircuit({ ...circuit, unread: [] }, [speaks(true)]).findings).toHaveLength(1);
  });
});

describe('a check that falls over', () => {
  it('is told as a fault of the tool, and the others go on', () => {
    const broken: Check = {
      ...speaks(false),
      id: 'battery-shorted',
      find: () => {
        throw new Error('out of range');
      },
    };
    const circuit = circuitOf('receiver "W" {\n battery A dry { tap A- tap A+ 1.5 V }\n}');
    const { findings } = checkCircuit(circuit, [broken, speaks(false)]);
    expect(findings.map(({ check }) => check).sort()).toEqual(['battery-shorted', 'tap-name']);
    expect(findings.find(({ check }) => check === 'battery-shorted')?.why).toContain(
      'fault of the tool',
    );
  });
});
