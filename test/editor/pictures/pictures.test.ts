import { join } from 'node:path';
import {
  closeBrowser,
  type Desk,
  eventually,
  lineOf,
  openDesk,
  textOf,
} from '../journeys/support.ts';

const goal = process.env.SETWRIGHT_WALKTHROUGH ?? '';

let desk: Desk;

interface Place {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

async function take(name: string, clip: Place): Promise<void> {
  // Out of every tab: one that the pointer rests on says its path.
  await desk.page.mouse.move(1, 700);
  await desk.page.locator('.monaco-hover:visible', { hasText: /^\/\S*\.receiver$/ }).waitFor({
    state: 'hidden',
  });
  await desk.page.screenshot({ path: join(goal, `${name}.png`), clip });
}

describe('pictures of the walkthrough', function () {
  this.timeout(90_000);
  before(async () => {
    desk = await openDesk({ width: 1240, height: 720 });
    await desk.command('View: Toggle Primary Side Bar Visibility');
  });
  after(async () => {
    await desk.close();
    await closeBrowser();
  });

  it('write', async () => {
    await desk.open('two-tube');
    await eventually(
      async () => desk.page.locator('.monaco-editor .view-lines').first().textContent(),
      (text) => /hours/.test(text ?? ''),
    );
    await take('write', { x: 48, y: 0, width: 900, height: 520 });
  });

  it('finding', async () => {
    await desk.open('grid-return-side');
    await desk.page.locator('.monaco-editor .squiggly-warning, .squiggly-error').first().waitFor();
    await desk.goTo(lineOf(textOf('grid-return-side'), 'leak R1'), 10);
    await desk.command('Show or Focus Hover');
    await desk.page.locator('.monaco-hover:not(.hidden)').first().waitFor();
    const fixes = desk.page.locator('.monaco-hover', { hasText: 'Quick Fix' }).first();
    await fixes.waitFor();
    await take('finding', { x: 48, y: 120, width: 1000, height: 500 });
    await desk.calm();
  });

  it('diagram', async () => {
    await desk.open('two-tube');
    await desk.goTo(lineOf(textOf('two-tube'), 'leak R1'), 10);
    await desk.command('Setwright: Open Diagram to the Side');
    await eventually(
      async () => desk.symbol('R1').getAttribute('class'),
      (classes) => /\blit\b/.test(classes ?? ''),
    );
    await take('diagram', { x: 48, y: 0, width: 1192, height: 560 });
  });

  it('dials', async () => {
    await desk.open('five-tube-trf');
    await desk.command('Setwright: Show Dial Chart');
    await desk.preview().locator('td').first().waitFor();
    await take('dials', { x: 644, y: 0, width: 596, height: 700 });
  });
});
