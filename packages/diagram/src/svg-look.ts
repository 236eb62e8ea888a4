/** The ground that a drawing is made for. */
export type Theme = 'light' | 'dark' | 'transparent';

/** What a colour is for; on screen each is a custom property that a page may set. */
type Purpose =
  | 'ink'
  | 'paper'
  | 'faint'
  | 'dim'
  | 'direct'
  | 'radio'
  | 'audio'
  | 'feedback'
  | 'oscillator'
  | 'failed'
  | 'changed'
  | 'added'
  | 'removed'
  | 'figure'
  | 'area'
  | 'area-edge';

/**
 * Told apart by most eyes, and by their dashes and arrows by all. Those of lines and letters stand
 * out from their ground by 5 to 1 and more.
 */
const light: Readonly<Record<Purpose, string>> = {
  ink: '#111111',
  paper: '#ffffff',
  faint: '#5f5f5f',
  dim: '#b4b4b4',
  direct: '#aa2419',
  radio: '#0a5c97',
  audio: '#1f6e3a',
  feedback: '#7b2f8f',
  oscillator: '#7b2f8f',
  failed: '#c00020',
  changed: '#8a4a00',
  added: '#1f6e3a',
  removed: '#aa2419',
  figure: '#0a5c97',
  // An edge that is seen would run through words; where paper shows no shade a page sets one.
  area: '#efe9da',
  'area-edge': '#efe9da',
};

const dark: Readonly<Record<Purpose, string>> = {
  ink: '#ededed',
  paper: '#1e1e1e',
  faint: '#a8a8a8',
  dim: '#5c5c5c',
  direct: '#ff8f85',
  radio: '#6cb6f0',
  audio: '#86cf83',
  feedback: '#d59be6',
  oscillator: '#d59be6',
  failed: '#ff7a7a',
  changed: '#f3b562',
  added: '#86cf83',
  removed: '#ff8f85',
  figure: '#6cb6f0',
  area: '#31322e',
  'area-edge': '#31322e',
};

const looks: Readonly<Record<Theme, Readonly<Record<Purpose, string>>>> = {
  light,
  dark,
  transparent: { ...light, paper: 'none' },
};

/** Width and dashes of the frame about what is new, gone or changed. */
const frames: Readonly<Record<'added' | 'removed' | 'changed', string>> = {
  added: '2',
  removed: '1.4;stroke-dasharray:5 4',
  changed: '1.4;stroke-dasharray:1.5 3',
};

/** Faces whose letters are as wide as the drawing reckons; any other is drawn out or in to it. */
const families = 'Arimo,"Liberation Sans",Helvetica,Arial,sans-serif';

/** Dashes of the paths, so that they are told apart without colour. */
const dashes: Readonly<Record<string, string>> = {
  direct: '',
  radio: '11 4',
  audio: '5 3',
  feedback: '1.5 4.5',
  oscillator: '1.5 4.5',
};

/** The class under which a drawing's rules stand, so that two drawings on one page keep apart. */
export const scopeOf = (theme: Theme, isFile: boolean): string =>
  isFile ? `setwright-${theme}` : 'setwright-live';

/**
 * The rules of a drawing. On screen every colour is a custom property, `--setwright-ink` and so
 * on, with the theme's colour where a page sets none; in a file the colours stand themselves, since
 * few programs but browsers know custom properties.
 */
export function styleSheet(theme: Theme, isFile: boolean): string {
  const colours = looks[theme];
  const of = (purpose: Purpose): string =>
    isFile ? colours[purpose] : `var(--setwright-${purpose},${colours[purpose]})`;
  const scope = `.${scopeOf(theme, isFile)}`;
  const rule = (selector: string, body: string): string =>
    `${selector
      .split(',')
      .map((each) => `${scope} ${each}`)
      .join(',')}{${body}}`;
  // A terminal hides the wire that runs on behind it.
  const ground = colours.paper === 'none' ? '#ffffff' : of('paper');
  return [
    `${scope}{font-family:${families}}`,
    rule('.paper', `fill:${of('paper')}`),
    rule(
      '.stroke,.wire,.rail-mark,.arm',
      `fill:none;stroke:${of('ink')};stroke-width:1.4;stroke-linecap:round;stroke-linejoin:round`,
    ),
    rule('.solid', `fill:${of('ink')}`),
    rule('.dashed', 'stroke-dasharray:4 3'),
    rule('.terminal .stroke', `fill:${ground}`),
    rule('.dot', `fill:${of('ink')}`),
    rule('.sense', `fill:${of('ink')}`),
    rule('.gang', `fill:none;stroke:${of('faint')};stroke-width:1;stroke-dasharray:6 3`),
    rule('.outline', `fill:none;stroke:${of('faint')};stroke-width:1`),
    rule('.in-the-air .stroke', `stroke:${of('faint')}`),
    rule('.letters', `fill:${of('ink')};white-space:pre`),
    rule('.name,.sign', 'font-weight:bold'),
    rule('.value', 'font-style:italic'),
    rule('.figure', `fill:${of('figure')}`),
    rule('.leader', `fill:none;stroke:${of('figure')};stroke-width:.8`),
    rule('.change-leader', `stroke:${of('changed')}`),
    rule('.caption', `fill:${of('faint')}`),
    // A colour of its own and no opacity, which would show wherever two dimmed lines meet.
    rule('.wire.dimmed,.rail-mark.dimmed,.arm.dimmed,.outline.dimmed', `stroke:${of('dim')}`),
    rule('.gang.dimmed,.dimmed .stroke', `stroke:${of('dim')}`),
    rule('.dot.dimmed,.sense.dimmed,.letters.dimmed,.arm.solid.dimmed', `fill:${of('dim')}`),
    rule('.dimmed .solid', `fill:${of('dim')}`),
    rule('.block', `fill:none;stroke:${of('faint')};stroke-width:.25`),
    rule('.area', `fill:${of('area')};stroke:${of('area-edge')};stroke-width:1`),
    rule('.path', 'fill:none;stroke-width:3.4;stroke-linejoin:round'),
    ...(['direct', 'radio', 'audio', 'feedback', 'oscillator'] as const).flatMap((kind) => [
      rule(
        `.path.${kind}`,
        `stroke:${of(kind)}${dashes[kind] ? `;stroke-dasharray:${dashes[kind]}` : ''}`,
      ),
      rule(`.head.${kind}`, `fill:${of(kind)}`),
    ]),
    rule('.path.field', 'stroke-width:2.4;stroke-dasharray:1.5 3.5'),
    rule('.failed', `fill:none;stroke:${of('failed')};stroke-width:2.6;stroke-linecap:round`),
    rule('.sign', `fill:${of('failed')}`),
    rule('.change', `fill:${of('changed')}`),
    rule('.changed', `fill:${ground};stroke:${of('changed')};stroke-width:1.6`),
    rule('.letter', `fill:${of('changed')};font-weight:bold`),
    ...(['added', 'removed', 'changed'] as const).flatMap((kind) => [
      rule(`.mark-frame.${kind}`, `fill:none;stroke:${of(kind)};stroke-width:${frames[kind]}`),
      rule(`.mark-ring.${kind}`, `fill:${ground};stroke:${of(kind)};stroke-width:1.6`),
      rule(`.mark-sign.${kind}`, `fill:${of(kind)};font-weight:bold`),
    ]),
    rule('.mark-run.added', `fill:none;stroke:${of('added')};stroke-width:2.6`),
    // What is gone is dashed: the ground shows through the wire that both states share.
    rule('.mark-run.removed', `fill:none;stroke:${ground};stroke-width:2.4;stroke-dasharray:4 4`),
    rule('.gone .stroke', `stroke:${of('removed')};stroke-dasharray:3 2.5`),
  ].join('\n');
}
