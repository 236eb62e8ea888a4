import { plainStyles } from '@setwright/report';
import { describe, expect, it } from 'vitest';
import { toldOf } from '../src/check-run.ts';
import { examine } from '../src/examine.ts';
import { textTelling } from '../src/report-text.ts';

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
});
