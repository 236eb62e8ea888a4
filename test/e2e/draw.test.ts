import { spawnSync } from 'node:child_process';
import { cpSync, existsSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';

const root = join(import.meta.dirname, '../..');
const tool = join(root, 'dist/setwright.cjs');
const sets = readdirSync(join(root, 'examples')).filter((name) => name.endsWith('.receiver'));

function draw(...args: string[]) {
  return spawnSync(process.execPath, [tool, 'draw', ...args], { cwd: root, encoding: 'utf8' });
}

let folder = '';
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'setwright-draw-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('setwright draw', () => {
  it.each(sets.slice(0, 4))('draws %s with every tube and condenser of it', (name) => {
    const { status, stdout } = draw(`examples/${name}`);
    expect(status).toBe(0);
    const text = readFileSync(join(root, 'examples', name), 'utf8');
    for (const [, part] of text.matchAll(/^\s*(?:tube|condenser) (\w+) /gm))
      expect(stdout).toContain(`data-part="${part}"`);
    expect(stdout).not.toContain('<script');
  });

  it('writes where it is told, and nowhere else', () => {
    const file = join(folder, 'set.svg');
    const { status, stdout } = draw('examples/crystal.receiver', '-o', file);
    expect([status, stdout]).toEqual([0, '']);
    expect(readFileSync(file, 'utf8')).toContain('</svg>');
    const wrong = draw('examples/crystal.receiver', '-o', join(folder, 'set.txt'));
    expect(wrong.status).toBe(2);
    expect(existsSync(join(folder, 'set.txt'))).toBe(false);
  });

  it('draws views, numbers, stages and pages', () => {
    const five = 'examples/five-tube-trf.receiver';
    const view = draw(five, '--view', 'suppose "first transformer burnt out"');
    expect(view.stdout).toContain('<title>open</title><path class="failed"');
    const sheet = draw(five, '--values', '--stages', '--page', 'a4-landscape', '--units', 'si');
    expect(sheet.stdout).toContain('width="297mm"');
    expect(sheet.stdout).toContain('data-stage="DET"');
    expect(sheet.status).toBe(0);
  });

  it('paints a PNG', () => {
    const file = join(folder, 'set.png');
    expect(draw('examples/crystal.receiver', '-o', file, '--scale', '3').status).toBe(0);
    expect(readFileSync(file).subarray(1, 4).toString()).toBe('PNG');
  });

  it('draws an SVG without its painter, and says what is missing for a PNG', () => {
    const away = join(folder, 'away');
    for (const name of ['setwright.cjs', 'setwright-main.cjs', 'setwright-draw.cjs'])
      cpSync(join(root, 'dist', name), join(away, name));
    const set = join(root, 'examples/crystal.receiver');
    const drawn = (output: string) =>
      spawnSync(process.execPath, [join(away, 'setwright.cjs'), 'draw', set, '-o', output], {
        cwd: folder,
        encoding: 'utf8',
      });
    expect(drawn('away.svg').status).toBe(0);
    const { status, stderr } = drawn('away.png');
    expect(status).toBe(2);
    expect(stderr).toContain('the painter @resvg/resvg-js cannot be loaded here');
    expect(existsSync(join(folder, 'away.png'))).toBe(false);
  });

  it('says so when there is no such file, no such view, no such paper', () => {
    const { status, stderr } = draw('no-such.receiver');
    expect(status).toBe(2);
    expect(stderr).toContain('no-such.receiver: there is no such file.');
    const view = draw('examples/crystal.receiver', '--view', 'audo');
    expect(view.status).toBe(2);
    expect(view.stderr).toContain('Did you mean "audio"?');
    const paper = draw('examples/crystal.receiver', '--page', 'a3');
    expect(paper.status).toBe(2);
    expect(paper.stderr).toContain('a4-landscape');
  });
});
