import { expect, test } from 'vitest';
import { sharedSupplyPath as check } from '../../src/checks/shared-supply-path.ts';
import { trfExample } from '../../src/examples/trf-example.ts';
import { edited } from '../edited.ts';
import { findingsOf, told } from '../support.ts';
import { heard } from '../trying.ts';

const unbypassed = (ohms: string): string =>
  edited(trfExample({ feed: '' }), ['    resistance 30 ohms\n', ohms]);

/** All three tubes on one tap, the detector with no bypass of its own and fed by a coil. */
const three = (ohms: string): string =>
  edited(
    unbypassed(`    resistance ${ohms}\n`),
    ['    condenser C5 .001 mfd from V3.plate to NEG\n', ''],
    ['phones PH1 2000 ohms from V3.plate to B+45', 'phones PH1 2000 ohms from V3.plate to B+67'],
  );

test('two radio stages behind one dropping resistor with no bypass sing', () => {
  expect(told(check.fails, findingsOf(check, check.fails))).toEqual([
    'shared-supply-path warning @ resistor R6 2000 ohms from B+67 to RFB',
  ]);
  const [finding] = findingsOf(check, check.fails);
  expect(finding?.message).toMatch(
    /^The radio current of V1 and V2 goes home through R6: 2000 ohms at \d+ kc that they share, a loop gain of 0\.8\d\.$/,
  );
  expect(finding?.cure).toBe('Put a bypass of .5 mfd from RFB to the filaments (V1.filament-).');
});

test('about two kilohms shared by two stages, or 300 ohms by three tubes, are enough', () => {
  // Gain 7 a stage, 15 kilohms of plate circuit: 15000 / 7 and 15000 / 49.
  const starts = (text: string) =>
    /With about ([\d.]+) (kil)?ohms/.exec(findingsOf(check, text)[0]?.why ?? '')?.[1];
  expect(Number(starts(check.fails))).toBeGreaterThan(1800);
  expect(Number(starts(check.fails))).toBeLessThan(2600);
  expect(Number(starts(three('2000 ohms')))).toBeGreaterThan(250);
  expect(Number(starts(three('2000 ohms')))).toBeLessThan(400);
});

test('a fresh block with no bypass does three tubes no harm', () => {
  expect(heard(check, unbypassed('    resistance 30 ohms\n'))).toEqual([]);
  expect(heard(check, three('30 ohms'))).toEqual([]);
});

test('an old block on its way is information', () => {
  const findings = findingsOf(check, unbypassed('    resistance 1000 ohms\n'));
  expect(findings.map(({ severity }) => severity)).toEqual(['information']);
  expect(findings[0]?.cure).toMatch(/before the way has aged past \d+ ohms\.$/);
});

test('a bypass on the tap cures the oldest block', () => {
  const text = edited(trfExample({}), ['resistance 30 ohms', 'resistance 3000 ohms']);
  expect(heard(check, text)).toEqual([]);
});

test('a bypass that is too small does not', () => {
  const text = edited(trfExample({ feed: 'condenser C6 .00005 mfd from B+67 to NEG' }), [
    'resistance 30 ohms',
    'resistance 8000 ohms',
  ]);
  expect(findingsOf(check, text)).toHaveLength(1);
});

test('a tube of unknown type is not judged', () => {
  expect(
    heard(check, check.fails.replaceAll('01-A', 'Q9')).filter((said) =>
      said.includes('radio current'),
    ),
  ).toEqual([]);
});

test('audio stages on one tap are judged elsewhere', () => {
  const text = check.fails.replaceAll('radio stage', 'audio stage');
  expect(heard(check, text)).toEqual([]);
});

test('an eliminator passes radio current through its filter condensers', () => {
  const text = edited(
    trfExample({ feed: '' }),
    ['battery B dry', 'eliminator B'],
    ['    tap B+67 67.5 V\n', '    tap B+67 67.5 V at 4 mA resistance 10 kilohms\n'],
  );
  expect(heard(check, text)).toEqual([]);
});

test('a block whose resistance nobody has told is never more than information', () => {
  const lively = (text: string): string => `${text.replaceAll('01-A', 'HM')}
tube type HM "lively triode" {
  filament 5 V 0.25 A
  amplification 40
  point plate 67.5 V grid -1 V current 2 mA resistance 11000 ohms
}
`;
  const severities = (text: string) => findingsOf(check, text).map(({ severity }) => severity);
  expect(severities(lively(three('30 ohms')))).toEqual(['warning']);
  const untold = edited(three('30 ohms'), ['    resistance 30 ohms\n', '']);
  expect(severities(lively(untold))).toEqual(['information']);
});
