/** The preview: paints the pages that the server lays out, and remembers where the reader stands. */
import { type Choice, heardByPreview, type Kept, type ToPreview } from '../messages.ts';
import type { Page } from '../protocol.ts';
import { bar, pageTitles } from './bar.ts';
import { chart } from './chart.ts';
import { notesAndTables, partList } from './details.ts';
import { isStill, make } from './dom.ts';
import { drawing } from './drawing.ts';
import { keep, keptBefore, say } from './host.ts';
import { countedFindings, severities, smallMark } from './marks.ts';
import { type Picture, pictureFrom } from './picture.ts';
import { inBase64, pointsOf } from './points.ts';
import { tour } from './tour.ts';

const firstChoice: Choice = {
  page: 'diagram',
  receiver: 0,
  view: 'whole',
  symbols: 'modern',
  values: false,
};

let kept: Kept = keptBefore() ?? {
  uri: '',
  title: '',
  choice: firstChoice,
  pinned: false,
  cameras: {},
  list: false,
  step: 0,
  runs: true,
};
/** The page that is painted, and its picture: the last good one while the text is broken. */
let painted: { readonly page: Page; readonly picture: Picture | undefined } | undefined;
let failure: string | undefined;
let isStale = false;
/** The number of the reader's last choice, and of the last one that is painted. */
let chosen = 0;
let answered = 0;

function remember(change: Partial<Kept>): void {
  kept = { ...kept, ...change };
  keep(kept);
}

const cameraKey = ({ page, receiver }: Pick<Choice, 'page' | 'receiver'>): string =>
  `${page} ${receiver}`;

const top = bar({
  choose: (change) => {
    const choice = { ...kept.choice, ...change };
    remember({ choice });
    chosen += 1;
    showSubject();
    showState();
    say({ kind: 'choose', choice, id: chosen });
  },
  pin: (pinned) => {
    remember({ pinned });
    top.show(kept.choice, pinned);
    say({ kind: 'pin', pinned });
  },
  keepAs: (format) => say({ kind: 'export', format }),
});

const reveal = (part: string, stay: boolean): void =>
  say({ kind: 'reveal', uri: kept.uri, part, stay });

const picture = drawing({
  reveal,
  moved: ({ middle, scale }, fitted) => {
    if (!painted) return;
    const cameras = { ...kept.cameras, [cameraKey(painted.page)]: { middle, scale, fitted } };
    remember({ cameras });
  },
});

const curves = chart();

const guide = tour({
  turn: (step) => {
    remember({ step });
    showTour();
    picture.bringTold();
  },
  run: (runs) => {
    remember({ runs });
    showTour();
  },
});

const heading = make('h1', { class: 'unseen' }, 'Setwright');
const state = make('p', { class: 'state', role: 'status', hidden: true });
const counts = make('div', { class: 'counts' });
const listButton = make(
  'button',
  { type: 'button', class: 'toggle', 'aria-pressed': 'false', title: 'The drawing in words' },
  'Parts in words',
);
const foot = make('div', { class: 'foot' }, counts, make('span', { class: 'spring' }), listButton);
// Until there is a page.
picture.element.hidden = true;
foot.hidden = true;
const words = make('div', { class: 'words-and-rows' });
const list = make('section', { class: 'list', 'aria-label': 'Parts in words', hidden: true });
const body = make(
  'div',
  { id: 'page', role: 'tabpanel', class: 'page' },
  state,
  guide.element,
  picture.element,
  curves.element,
  foot,
  make('div', { class: 'below' }, list, words),
);
const main = make('main', {}, heading, body);
document.body.append(top.element, main);

listButton.addEventListener('click', () => {
  remember({ list: !kept.list });
  showList();
});

function showList(): void {
  listButton.setAttribute('aria-pressed', `${kept.list}`);
  const hasParts = Object.keys(painted?.page.parts ?? {}).length > 0;
  list.hidden = !kept.list || !hasParts;
  if (list.hidden || !painted) return;
  list.replaceChildren(
    make('h2', {}, 'Parts in words'),
    partList(painted.page.parts, { reveal: (part) => reveal(part, false), goTo: picture.goTo }),
  );
}

function showTour(): void {
  const steps = painted?.page.steps ?? [];
  const isTour = kept.choice.page === 'tour' && steps.length > 0;
  const step = Math.min(Math.max(kept.step, 0), Math.max(steps.length - 1, 0));
  const runs = kept.runs && !isStill();
  guide.show(isTour ? steps : [], step, runs);
  picture.run(isTour && runs);
  picture.tell(isTour ? step : undefined, steps[step]);
}

/** Says in the bar and to those who hear it what the preview is about. */
function showSubject(): void {
  const { choice, pinned, title } = kept;
  top.show(choice, pinned);
  heading.textContent = `${pageTitles[choice.page]} of ${title}`;
  body.setAttribute('aria-labelledby', `tab-${choice.page}`);
}

/** How many findings there are at the symbols; pressing one goes from part to part. */
function showCounts(page: Page): void {
  const named = Object.entries(page.parts);
  const all = page.page === 'tour' ? [] : named.flatMap(([, { findings }]) => findings);
  const buttons = severities.flatMap((severity) => {
    const count = all.filter((each) => each.severity === severity).length;
    if (count === 0) return [];
    const button = make(
      'button',
      { type: 'button', title: 'Go to the next of them' },
      smallMark(severity),
      countedFindings(severity, count),
    );
    let next = 0;
    button.addEventListener('click', () => {
      const names = named
        .filter(([, { findings }]) => findings.some((each) => each.severity === severity))
        .map(([name]) => name)
        .filter((name) => picture.part(name) !== undefined);
      const name = names[next % Math.max(names.length, 1)];
      next += 1;
      if (name !== undefined) picture.goTo(name);
    });
    return [button];
  });
  counts.replaceChildren(...buttons);
}

/** Says in a line why the picture is not of this moment, where it is not. */
function showState(): void {
  const page = painted?.page;
  const said =
    failure !== undefined
      ? `${failure}${painted ? ' This is the last picture there was.' : ''}`
      : chosen > answered && page?.page !== kept.choice.page
        ? 'The page is being reckoned …'
        : isStale
          ? 'Lines of the text cannot be read: this is the last good picture.'
          : page?.broken
            ? 'Lines of the text cannot be read: the picture shows what can be.'
            : '';
  state.hidden = said === '';
  if (state.textContent !== said) state.textContent = said;
  body.classList.toggle('stale', isStale || failure !== undefined);
  // From a choice until it can be seen.
  body.setAttribute('aria-busy', `${failure === undefined && (!page || chosen > answered)}`);
}

function paint(page: Page): void {
  const before = painted;
  const isSamePage =
    before !== undefined &&
    before.page.uri === page.uri &&
    before.page.page === page.page &&
    before.page.receiver === page.receiver;
  const isSameView = isSamePage && before.page.view === page.view;
  failure = undefined;
  isStale = page.broken && isSameView && before.picture !== undefined && isGood(before.page);
  const drawn = isStale || !page.svg ? undefined : pictureFrom(page.svg);
  if (isStale && before) {
    // The picture stays; where its parts stand in the source is known anew.
    const parts = { ...before.page.parts, ...page.parts };
    painted = { ...before, page: { ...before.page, parts } };
  } else {
    if (page.svg && !drawn) say({ kind: 'trouble', message: 'The picture is no sound SVG.' });
    painted = { page, picture: drawn };
    const isChart = drawn !== undefined && Object.keys(page.parts).length === 0;
    picture.element.hidden = !drawn || isChart;
    curves.element.hidden = !isChart;
    body.classList.toggle('pictured', drawn !== undefined && !isChart);
    body.classList.toggle('charted', isChart);
    // What scrolls must be within reach of the keyboard.
    if (isChart) body.setAttribute('tabindex', '0');
    else body.removeAttribute('tabindex');
    words.replaceChildren(...notesAndTables(page, (part) => reveal(part, false)));
    foot.hidden = Object.keys(page.parts).length === 0;
  }
  document.body.classList.remove('waiting');
  top.offer(page);
  showCounts(page);
  showList();
  showState();
  showTour();
  // Last, since the room that is left for the picture must be known.
  if (drawn && body.classList.contains('charted')) curves.show(drawn);
  else if (drawn) {
    const stood = kept.cameras[cameraKey(page)];
    picture.show(drawn, page.parts, stood?.fitted === false ? stood : undefined, isSamePage);
    showTour();
  }
}

/** Good for as long as it was painted from a text without broken lines. */
const isGood = ({ broken }: Page): boolean => !broken;

function hear(message: ToPreview): void {
  switch (message.kind) {
    case 'subject': {
      const { uri, title, pinned, heard } = message;
      // What the reader chose since then stands; the client is about to hear of it.
      const choice = heard < chosen ? kept.choice : message.choice;
      const isOther = uri !== kept.uri;
      remember({ uri, title, choice, pinned, ...(isOther ? { cameras: {}, step: 0 } : {}) });
      showSubject();
      showState();
      return;
    }
    case 'page': {
      const { page, heard } = message;
      const { uri, choice } = kept;
      if (page.uri !== uri || page.page !== choice.page || heard < chosen) return;
      answered = heard;
      paint(page);
      return;
    }
    case 'failed':
      if (message.uri !== kept.uri) return;
      failure = message.message;
      answered = chosen;
      document.body.classList.remove('waiting');
      showState();
      return;
    case 'lit':
      if (message.uri === kept.uri) picture.light(message.parts);
      return;
    case 'points':
      void makePoints(message);
  }
}

/** Milliseconds that the keys may take to come here. */
const patience = 3000;

/** Resolves once the page has the keys, without which a browser gives no clipboard; or at last. */
const attention = (): Promise<void> =>
  new Promise((resolve) => {
    if (document.hasFocus()) return resolve();
    addEventListener('focus', () => resolve(), { once: true });
    setTimeout(resolve, patience);
  });

async function makePoints({ id, svg, to }: Extract<ToPreview, { kind: 'points' }>): Promise<void> {
  try {
    if (to === 'clipboard') {
      await attention();
      const png = pointsOf(svg);
      await navigator.clipboard.write([new ClipboardItem({ 'image/png': png })]);
      say({ kind: 'points', id, png: undefined, trouble: undefined });
    } else {
      const png = await inBase64(await pointsOf(svg));
      say({ kind: 'points', id, png, trouble: undefined });
    }
  } catch (error) {
    const trouble = error instanceof Error ? error.message : String(error);
    say({ kind: 'points', id, png: undefined, trouble });
  }
}

addEventListener('message', (event: MessageEvent<unknown>) => {
  const message = heardByPreview(event.data);
  if (message) hear(message);
});
addEventListener('error', (event) => say({ kind: 'trouble', message: event.message }));

showSubject();
showState();
document.body.classList.add('waiting');
say({ kind: 'ready' });
