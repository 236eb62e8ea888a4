import { describe, expect, it } from 'vitest';
import { plateVoltageOnGrid } from '../../src/checks/plate-voltage-on-grid.ts';
import { plateWithoutSupply } from '../../src/checks/plate-without-supply.ts';
import { socketMirrored as check } from '../../src/checks/socket-mirrored.ts';
import { checkCircuit } from '../../src/run.ts';
import { edited } from '../edited.ts';
import { circuitOf, findingsOf, told } from '../support.ts';
import { afterFix, heard } from '../trying.ts';

const sound = check.passes;

describe('a socket is mirrored', () => {
  it('with grid and plate exchanged', () => {
    const findings = findingsOf(check, check.fails);
    expect(told(check.fails, findings)).toEqual(['socket-mirrored error @ tube V2 01-A']);
    expect(findings[0]?.message).toBe(
      'The socket of V2 is wired the wrong way round: its grid is on B+90 and its plate on C-4.5.',
    );
    expect(findings[0]?.cure).toBe(
      'Exchange what is joined to V2.grid and V2.plate: the socket was wired from its other side.',
    );
    expect(findings[0]?.parts).toEqual(['V2']);
  });

  it('and right once they are exchanged, which is the fix', () => {
    const mended = afterFix(check, check.fails);
    expect(mended).toBe(sound);
    expect(heard(check, mended)).toEqual([]);
  });

  it('with the filament ends crossed as well', () => {
    const text = edited(check.fails, ['filament from RH2 to A+', 'filament from A+ to RH2']);
    expect(heard(check, text)).toEqual([
      'The socket of V2 is wired the wrong way round: its grid is on B+90 and its plate on C-4.5, and its filament ends are crossed as well.',
    ]);
    const mended = afterFix(check, text);
    expect(mended).toContain('filament from RH2.finish to A+');
    expect(heard(check, mended)).toEqual([]);
  });

  it('as a detector behind its grid condenser', () => {
    const text = edited(
      sound,
      ['from L1.grid.finish to V1.grid', 'from L1.grid.finish to V1.plate'],
      ['leak R1 2 meg from V1.grid', 'leak R1 2 meg from V1.plate'],
      ['winding primary 800 ohms from V1.plate', 'winding primary 800 ohms from V1.grid'],
      ['.001 mfd from V1.plate', '.001 mfd from V1.grid'],
    );
    expect(heard(check, text)).toEqual([
      'The socket of V1 is wired the wrong way round: its grid is on B+45 and its plate on A+.',
    ]);
  });

  it('is one fault and one finding', () => {
    const checks = [plateVoltageOnGrid, plateWithoutSupply, check];
    const alone = checks.flatMap((each) => findingsOf(each, check.fails));
    expect(alone.map((each) => each.check)).toEqual([
      'plate-voltage-on-grid',
      'plate-without-supply',
      'socket-mirrored',
    ]);
    const { findings } = checkCircuit(circuitOf(check.fails), checks);
    expect(findings.map((each) => each.check)).toEqual(['socket-mirrored']);
  });
});

describe('a socket is right', () => {
  it('of a diode', () => {
    const text = edited(check.fails, [
      '    phones PH1',
      '    wire V2.grid to V2.plate\n    phones PH1',
    ]);
    expect(heard(check, text)).toEqual([]);
  });

  it('of a tube with a screen', () => {
    expect(heard(check, edited(check.fails, ['tube V2 01-A', 'tube V2 22']))).toEqual([]);
  });

  it('with only its filament ends crossed', () => {
    expect(
      heard(check, edited(sound, ['filament from RH2 to A+', 'filament from A+ to RH2'])),
    ).toEqual([]);
  });

  it('where a coupling is bridged: the grid has its return as well', () => {
    expect(heard(check, plateVoltageOnGrid.fails)).toEqual([]);
  });
});
