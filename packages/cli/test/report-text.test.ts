import { plainStyles } from '@setwright/report';
import { describe, expect, it } from 'vitest';
import { toldOf } from '../src/check-run.ts';
import { examine } from '../src/examine.ts';
import { textTelling } from '../src/report-text.ts';
import { deadly, sound } from './support.ts';

describe('the report for a person', () => {
  it('shows no more of a hopeless file than a person reads, and says how many are left', () => {
    const text = `receiver "x" {\n${'resistr R1\n'.repeat(400)}}\n`;
    const files = [examine('x.receiver', text, 'written')];
    const lines = toldOf(textTelling('written', plainStyles), files).split('\n');
    expect(lines.filter((line) => line.includes('[unreadable-line]'))).toHaveLength(300);
    expect(lines).toContain(
      'x.receiver: 100 more findings; put these right first (--format json has all).',
    );
    expect(lines).toContain('400 errors, 0 warnings in 1 file');
  });

  it('counts the safe sets of a collection, and lists those that are not', () => {
    const one = examine('a.receiver', sound, 'written');
    const files = [
      { ...one, sets: Array.from({ length: 120 }, () => one.sets).flat() },
      examine('b.receiver', deadly, 'written'),
      examine('c.receiver', 'receiver "Crystal" {\n}\n', 'written'),
    ];
    const lines = toldOf(textTelling('written', plainStyles), files).trimEnd().split('\n');
    expect(lines.slice(-2)).toEqual([
      expect.stringMatching(/^b\.receiver: Sound: B\+45 CAN reach the filament of V1/),
      'In 120 sets B cannot reach a filament at any position of any switch, jack or control; 1 set has no B supply or no filament.',
    ]);
  });
});
