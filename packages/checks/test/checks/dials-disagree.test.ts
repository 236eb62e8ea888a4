import { expect, test } from 'vitest';
import { dialsDisagree as check } from '../../src/checks/dials-disagree.ts';
import { edited } from '../edited.ts';
import { findingsOf, told } from '../support.ts';
import { heard } from '../trying.ts';

const apart = (text: string): string =>
  edited(
    text,
    ['  gang G1 C2, C3 frame to GND\n', ''],
    ['dial D2 0 to 100 drives G1', 'dial D2 0 to 100 drives C2\n  dial D3 0 to 100 drives C3'],
  );

test('one coil of a shaft rewound with fewer turns drifts at the long waves', () => {
  expect(told(check.fails, findingsOf(check, check.fails))).toEqual([
    'dials-disagree warning @ winding grid 50 turns of 26 DCC beside plate from GND',
  ]);
  expect(findingsOf(check, check.fails)[0]?.message).toMatch(
    /^On G1 L3\.grid stands 7\.\d % above L2\.grid at 5\d\d kc, trimmers set\.$/,
  );
});

test('coils alike keep together, trimmers set', () => {
  expect(heard(check, check.passes)).toEqual([]);
});

test('what unknown strays can do is no fault: coils alike without trimmers', () => {
  const text = edited(
    check.passes,
    ['    condenser TR2 trimmer 2 to 30 mmfd across C2\n', ''],
    ['    condenser TR3 trimmer 2 to 30 mmfd across C3\n', ''],
  );
  expect(heard(check, text)).toEqual([]);
});

test('condensers of two makes on one shaft do not keep together', () => {
  const text = edited(check.passes, ['C3 variable 14 to 365', 'C3 variable 14 to 500']);
  expect(findingsOf(check, text)[0]?.cure).toContain('condensers of one make');
});

test('dials of their own that read far apart are information', () => {
  const findings = findingsOf(check, apart(check.fails));
  expect(findings.map(({ severity }) => severity)).toEqual(['information']);
  expect(findings[0]?.message).toMatch(/the dials may read apart: D\d at \d+ and D\d at \d+\.$/);
});

test('the one coil of three that was rewound is named', () => {
  expect(findingsOf(check, apart(check.fails))[0]?.cure).toMatch(
    /^Nothing, if that is how it was made: note the readings\. If they should be alike, L3\.grid has 19\d µH where L1\.grid and L2\.grid have 23\d µH\.$/,
  );
});

test('the one condenser of three that is of another size is named', () => {
  const text = edited(apart(check.passes), ['C3 variable 14 to 365', 'C3 variable 20 to 500']);
  expect(findingsOf(check, text)[0]?.cure).toContain(
    'C3 has 500 mmfd where C1 and C2 have 365 mmfd',
  );
});

test('dials of their own within five divisions say nothing', () => {
  expect(heard(check, apart(check.passes))).toEqual([]);
});

test('the first dial always reads off', () => {
  const text = edited(apart(check.passes), [
    'winding grid 56 turns of 26 DCC beside aerial',
    'winding grid 62 turns of 26 DCC beside aerial',
  ]);
  expect(heard(check, text)).toEqual([]);
});

test('a coil of which not enough is said is not judged', () => {
  expect(heard(check, edited(check.fails, ['50 turns of 26 DCC', '50 turns']))).toEqual([]);
});
