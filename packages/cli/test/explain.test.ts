import { allChecks } from '@setwright/checks';
import { plainStyles } from '@setwright/report';
import { describe, expect, it } from 'vitest';
import { pageForTerminal } from '../src/page.ts';
import { runIn } from './support.ts';

describe('explain', () => {
  it('prints the page of a check', () => {
    const { code, out } = runIn('/', ['explain', 'grid-without-dc-return']);
    expect(code).toBe(0);
    expect(out.split('\n')[0]).toBe('grid-without-dc-return');
    expect(out).toContain('Why it matters');
    expect(out).toContain('    receiver "');
  });

  it('lists every check with what it finds when none is named', () => {
    const { code, out } = runIn('/', ['explain']);
    expect(code).toBe(0);
    const lines = out.split('\n').map((line) => line.trim());
    expect(allChecks.length).toBeGreaterThan(20);
    for (const { id } of allChecks) expect(lines).toContain(id);
  });

  it('answers a name that no check bears with the nearest', () => {
    const { code, err } = runIn('/', ['explain', 'grid-without-dc-retrun']);
    expect([code, err]).toEqual([
      2,
      expect.stringContaining('Did you mean grid-without-dc-return'),
    ]);
  });
});

describe('a page on a terminal', () => {
  it('has no marks of Markdown, and no long lines but those of a set', () => {
    const markdown = `# title\n\n${'word '.repeat(40).trim()}\n\n- ${'item '.repeat(30).trim()}\n\n\`\`\`\n${'x'.repeat(120)}\n\`\`\`\n`;
    const lines = pageForTerminal(markdown, 60, plainStyles).split('\n');
    expect(lines[0]).toBe('title');
    expect(lines.filter((line) => line.length > 60)).toEqual([`    ${'x'.repeat(120)}`]);
    expect(lines).toContainEqual(expect.stringMatching(/^ {2}item/));
  });
});

describe('the help', () => {
  it('has examples for every command', () => {
    for (const command of ['check', 'trace', 'format', 'explain']) {
      const { code, out } = runIn('/', [command, '--help']);
      expect([command, code, out]).toEqual([
        command,
        0,
        expect.stringMatching(/Examples?:\n {2}setwright/),
      ]);
    }
  });

  it('comes unasked, on standard error, when no command is named', () => {
    const { code, out, err } = runIn('/', []);
    expect([code, out, err]).toEqual([2, '', expect.stringContaining('Examples:')]);
  });

  it('comes with the nearest command for one that does not exist', () => {
    const { code, err } = runIn('/', ['chek']);
    expect([code, err]).toEqual([2, expect.stringContaining('Did you mean check?')]);
  });
});
