import type { Chance } from '../support/random/chance.ts';
import { changedInput, hostileTitles, onTheBench, wordOf } from './inputs.ts';
import { type Form, judged } from './judging.ts';
import { type Called, called } from './tool.ts';
import { withSoundJson } from './written-json.ts';

/** The words of one call of the tool, and how what it writes is written. */
interface Call {
  readonly args: readonly string[];
  /** Of standard output. */
  readonly form: Form;
}

type Calling = (chance: Chance, word: () => string) => Call;

const SET = 'set.receiver';
const OTHER = 'other.receiver';

/** By the ending of a file that a call made. */
const forms: Readonly<Record<string, Form>> = { svg: 'svg', html: 'html', md: 'markdown' };

const units = (chance: Chance) => (chance.percent(30) ? ['--units', 'si'] : []);
const found = (chance: Chance) => (chance.percent(30) ? ['--as', 'found'] : []);
const symbols = (chance: Chance) => (chance.percent(30) ? ['--symbols', 'period'] : []);
const option = (chance: Chance, name: string) => (chance.percent(40) ? [name] : []);
const stations = (chance: Chance) =>
  chance.percent(40) ? ['--stations', chance.one(['550, 1 Mc', '360 meters', '.001, 1e5 Mc'])] : [];
const receiver = (chance: Chance) => {
  const which = chance.below(10);
  return which > 7 ? [] : ['--receiver', which === 0 ? '2' : '1'];
};
const themes = ['light', 'dark', 'transparent'] as const;
const views = ['whole', 'radio', 'audio', 'bias', 'plate', 'filaments', 'suppose 1', 'stage DET'];
const papers = ['a4', 'a4-landscape', 'letter', 'letter-landscape'] as const;

/** A call that tells of a set in one of these forms. */
const telling = (
  command: string,
  of: readonly Form[],
  more: (chance: Chance) => string[] = () => [],
) =>
  ((chance) => {
    const form = chance.one(of);
    return { args: [command, SET, '--format', form, ...more(chance)], form };
  }) as Calling;

const short = (chance: Chance) => [...option(chance, '--short'), ...units(chance)];

/** A page to standard output, or Markdown with pictures into a folder. */
const paged = (command: string, more: (chance: Chance) => string[]) =>
  ((chance) => ({
    args: [
      ...[command, SET, ...more(chance), ...symbols(chance), ...units(chance), ...receiver(chance)],
      ...(chance.percent(40) ? ['-o', 'page/page.md'] : []),
    ],
    form: 'html',
  })) as Calling;

/** Calls of every command, by the stage that they are. */
export const calls = {
  check: (chance) => {
    const form = chance.one(['text', 'json', 'json', 'github'] as const);
    return { args: ['check', SET, '--format', form, ...found(chance)], form };
  },
  sarif: () => ({ args: ['check', '.', '--format', 'sarif'], form: 'sarif' }),
  thorough: telling('check', ['text', 'json'], () => ['--thorough']),
  values: telling('values', ['text', 'json', 'csv'], (chance) => [
    ...short(chance),
    ...found(chance),
  ]),
  dials: telling('dials', ['text', 'json', 'csv'], (chance) => [
    ...(chance.percent(20) ? ['--every', '100 kc'] : stations(chance)),
    ...[...option(chance, '--plot'), ...units(chance), ...found(chance)],
    ...(chance.percent(40) ? ['-o', 'chart.svg'] : []),
  ]),
  response: telling('response', ['text', 'json', 'csv'], (chance) => [
    ...['--stations', chance.one(['600', '600, 1200', '550, 1000, 1500'])],
    ...[...option(chance, '--plot'), ...units(chance), ...found(chance)],
    ...(chance.percent(40) ? ['-o', 'curves.svg'] : []),
  ]),
  bench: telling('bench', ['text', 'json', 'csv', 'markdown'], units),
  faults: telling('faults', ['text', 'json', 'csv'], short),
  suspects: telling('suspects', ['text', 'json']),
  supposed: telling('faults', ['text', 'json', 'csv'], (chance) => [
    ...[...short(chance), '--suppose', 'by chance'],
  ]),
  trace: (chance, word) => {
    const form = chance.one(['text', 'json'] as const);
    const kind = chance.one(['all', 'all', 'direct', 'radio', 'audio']);
    return { args: ['trace', SET, '--format', form, '--kind', kind, '--', word()], form };
  },
  describe: () => ({ args: ['describe', SET], form: 'text' }),
  compare: (chance) => {
    const form = chance.one(['text', 'json', 'markdown'] as const);
    return { args: ['compare', SET, OTHER, '--format', form, ...units(chance)], form };
  },
  marked: (chance) => ({
    args: ['compare', SET, OTHER, '--no-numbers', '--drawing', ...symbols(chance)],
    form: 'svg',
  }),
  draw: (chance) => ({
    args: [
      ...['draw', SET, ...receiver(chance), '--view', chance.one(views)],
      ...[...option(chance, '--values'), ...option(chance, '--stages'), ...symbols(chance)],
      ...[...units(chance), '--theme', chance.one(themes)],
      ...(chance.percent(20) ? ['--page', chance.one(papers)] : []),
    ],
    form: 'svg',
  }),
  tour: paged('tour', (chance) => ['--level', chance.one(['newcomer', 'restorer'])]),
  report: paged('report', (chance) => (chance.percent(50) ? ['--date', '12 May 1926'] : [])),
  collection: () => ({ args: ['report', '--collection', '.', '-o', 'site'], form: 'text' }),
  // Whatever stands where a word is asked for.
  words: (chance, word) => ({
    args: chance.one<() => string[]>([
      () => ['explain', '--', word()],
      () => ['tubes', '--', word()],
      () => ['new', chance.one(['one-tube', 'three-dial', word()]), `--title=${word()}`],
      () => ['trace', SET, '--', word()],
      () => ['bench', SET, `--bench=${word()}`],
      () => ['faults', SET, `--part=${word()}`],
      () => ['faults', SET, `--suppose=${word()}`],
      () => ['dials', SET, `--stations=${word()}`],
      () => ['dials', SET, `--every=${word()}`],
      () => ['draw', SET, `--view=${word()}`],
      () => ['tour', SET, `--receiver=${word()}`],
      () => ['describe', word()],
      () => [word(), SET],
      () => ['values', SET, `--format=${word()}`],
    ])(),
    form: 'text',
  }),
} satisfies Readonly<Record<string, Calling>>;

/** What goes by readings and what-ifs, of which most sets have none. */
const benched: ReadonlySet<string> = new Set([
  'bench',
  'faults',
  'suspects',
  'supposed',
  'tour',
  'report',
]);

/** Calls the tool once with a text, and makes sure of all that it writes. */
export async function callOn(
  stage: keyof typeof calls,
  text: string,
  seed: number,
  chance: Chance,
): Promise<void> {
  const call: Call = (calls[stage] as Calling)(chance, () => wordOf(text, chance));
  const titled = chance.percent(25) ? hostileTitles(text, chance) : text;
  const set = benched.has(stage) ? onTheBench(titled, chance) : titled;
  const files = { [SET]: set, [OTHER]: changedInput(text, seed) };
  try {
    judgeCalled(await withSoundJson(() => called(call.args, files)), call, [
      ...Object.values(files),
      ...call.args,
    ]);
  } catch (error) {
    // What is called says more than where it went wrong alone.
    if (error instanceof Error) error.message = `${call.args.join(' ')}: ${error.message}`;
    throw error;
  }
}

function judgeCalled(
  { code, out, err, made }: Called,
  { form, args }: Call,
  own: readonly string[],
) {
  const authors = own.join('\n');
  judged(err, 'text', authors);
  if (![0, 1, 2].includes(code)) throw new Error(`answers ${code}`);
  if (code === 2 && err === '') throw new Error('does not say what is the matter');
  if (code !== 2 && out === '' && made.size === 0 && !saysNothing(args, form))
    throw new Error('says nothing');
  if (out !== '') judged(out, formOf(form, out), authors);
  for (const [name, contents] of made) {
    const written = forms[name.split('.').at(-1) ?? ''];
    if (written) judged(contents, written, authors);
  }
}

/** Where nothing wrong is told by nothing. */
const saysNothing = (args: readonly string[], form: Form): boolean =>
  form === 'github' || args[0] === 'describe' || args[0] === 'report';

/** A call with words by chance may write a page or a drawing. */
function formOf(form: Form, out: string): Form {
  if (form !== 'text') return form;
  if (out.startsWith('<!doctype')) return 'html';
  return /^<(?:svg|\?xml) /.test(out) ? 'svg' : form;
}
