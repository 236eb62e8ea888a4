import { plainStyles } from '@setwright/report';
import { describe, expect, it } from 'vitest';
import { examine } from '../src/examine.ts';
import { textReport } from '../src/report-text.ts';

describe('the report for a person', () => {
  it('shows no more of a hopeless file than a person reads, and says how many are left', () => {
    const text = `receiver "x" {\n${'resistr R1\n'.repeat(400)}}\n`;
    const run = { files: [examine('x.receiver', text, 'written')], partsAs: 'written' as const };
    const lines = textReport(run as never, plainStyles).split('\n');
    expect(lines.filter((line) => line.includes('[unreadable-line]'))).toHaveLength(300);
    expect(lines).toContain(
      'x.receiver: 100 more findings; put these right first (--format json has all).',
    );
    expect(lines).toContain('400 errors, 0 warnings in 1 file');
  });
});
