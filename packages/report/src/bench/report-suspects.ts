import type { Suspect, Suspects } from '@setwright/bench';
import type { Styles } from '../text/styles.ts';
import { printableJson, visible } from '../text/visible.ts';
import { counted, listed } from '../text/words.ts';
import { wrapped } from '../text/wrapped.ts';

/** Suspects shown to a person at most, and the share below which they are only counted. */
const SHOWN = 8;
const LEAST_SHOWN = 0.01;
/** The same for other programs. */
const SHOWN_TO_PROGRAMS = 60;
const LEAST_FOR_PROGRAMS = 1e-4;
/** Of what is alike so many are named. */
const ALIKE_NAMED = 6;

/** For other programs: the suspects of each set by its bench, and what to measure next. */
export function suspectsInJson(path: string, all: readonly Suspects[]): string {
  const [first] = all;
  const report = {
    version: 1,
    path,
    suspects: all.flatMap((each) => each.suspects.flatMap(suspectFor(each))),
    next: first ? nextFor(first) : null,
    ...(all.length > 1 ? { nextOf: all.map(nextFor) } : {}),
    contradictions: all.flatMap(({ contradictions }) =>
      contradictions.map(({ words, cure, parts }) => ({
        message: words,
        cure,
        parts,
      })),
    ),
    unexplained: all.flatMap(({ unexplained }) => unexplained),
    sound: all.map(({ circuit, bench, sound }) => ({
      receiver: circuit.title,
      bench: bench.title,
      probability: rounded(sound),
    })),
    cautions: [...new Set(all.flatMap(({ cautions }) => cautions))],
  };
  return `${printableJson(report)}\n`;
}

function suspectFor({ circuit, bench }: Suspects) {
  return (suspect: Suspect, index: number) => {
    const { part, fault, probability, alike, speaksFor, against, dangers } = suspect;
    if (index >= SHOWN_TO_PROGRAMS || probability < LEAST_FOR_PROGRAMS) return [];
    return [
      {
        receiver: circuit.title,
        bench: bench.title,
        part,
        fault,
        probability: rounded(probability),
        because: becauseWords(suspect),
        for: speaksFor,
        against,
        alike: alike.map((each) => ({ ...each, probability: rounded(each.probability) })),
        dangers,
        suppose: suspect.faults.map(({ id }) => id),
      },
    ];
  };
}

function nextFor({ next }: Suspects) {
  if (!next) return null;
  const { at, to, words, line, because, test } = next;
  return { at, to: to ?? null, because, do: words, write: line, kind: test.kind };
}

function rounded(probability: number): number {
  return Number(probability.toFixed(5));
}

/** Why a suspect stands where it does, in one sentence. */
function becauseWords({ speaksFor, against, faults }: Suspect): string {
  const prior = faults.map((fault) => fault.prior).filter((each) => each !== undefined);
  const common =
    prior.length > 0 ? ` ${capital([...new Set(prior)].join(' and '))} in sets of this age.` : '';
  const pro =
    speaksFor.length > 0
      ? `For it: ${speaksFor.join('; ')}.`
      : 'Nothing read or heard speaks for it alone.';
  const con = against.length > 0 ? ` Against it: ${against.join('; ')}.` : '';
  return `${pro}${con}${common}`;
}

function capital(words: string): string {
  return words.slice(0, 1).toUpperCase() + words.slice(1);
}

/** For a person at the bench: what may be the matter, why, and what to do next. */
export function suspectsInWords(
  suspects: Suspects,
  { columns, styles }: { readonly columns: number; readonly styles: Styles },
): string[] {
  const { circuit, bench, cautions } = suspects;
  const width = Math.max(50, Math.min(columns, 100));
  const say = (words: string, indent = '') => wrapped(visible(words), width, indent);
  const set = circuit.title || 'Receiver without a name';
  const title = bench.title ? `${set}: suspects by the bench "${bench.title}"` : `${set}: suspects`;
  const out = [styles.strong(visible(title)), ''];
  if (cautions.length > 0) out.push(...say(`Caution: ${cautions.join(' ')}`), '');
  out.push(...troubles(suspects, say, styles));
  const shown = suspects.suspects.filter(
    ({ probability }, at) => at < SHOWN && probability >= LEAST_SHOWN,
  );
  out.push(styles.strong(shown.length > 0 ? 'Suspects' : 'No suspect stands out.'));
  for (const suspect of shown) out.push(...suspectLines(suspect, say, styles));
  out.push(...theRest(suspects, shown, say), '');
  out.push(...nextLines(suspects, say, styles), '');
  out.push(
    ...say(
      'Shares rest on how common faults are in sets of this age, which is common practice and no statistics.',
    ),
  );
  return out;
}

type Say = (words: string, indent?: string) => readonly string[];

function troubles(
  { contradictions, unexplained, suspects }: Suspects,
  say: Say,
  styles: Styles,
): string[] {
  const out: string[] = [];
  if (contradictions.length > 0) {
    out.push(styles.of('warning', 'First: these readings cannot all be true.'));
    for (const { words, cure } of contradictions) out.push(...say(`- ${words} ${cure}`, '  '));
    out.push('');
  }
  if (unexplained.length > 0) {
    const what =
      (suspects[0]?.faults.length ?? 0) > 1
        ? 'these two together'
        : 'no single fault and no likely pair';
    const words =
      what === 'these two together'
        ? `Even two faults together do not explain ${listed(unexplained)}.`
        : `No single fault and no likely pair explains ${listed(unexplained)} with the rest.`;
    out.push(
      ...say(
        `${words} Take ${unexplained.length > 1 ? 'them' : 'it'} once more before you look further.`,
      ).map((line) => styles.of('warning', line)),
      '',
    );
  }
  return out;
}

function percent(probability: number): string {
  if (probability >= 0.995) return '>99 %';
  if (probability < 0.005) return '<1 %';
  return `${(100 * probability).toFixed(0)} %`;
}

/** Words stand clear of the shares before them. */
const INDENT = '         ';

/** A share, and what it is the share of. */
function entry(
  probability: number,
  words: string,
  say: Say,
  set: (text: string) => string = (text) => text,
): string[] {
  const [first = '', ...more] = say(words, INDENT);
  return [`${percent(probability).padStart(6)}   ${set(first.trimStart())}`, ...more.map(set)];
}

function suspectLines(suspect: Suspect, say: Say, styles: Styles): string[] {
  const { fault, probability, speaksFor, against, alike, dangers, faults } = suspect;
  const prior = faults.length === 1 ? faults[0]?.prior : undefined;
  const head = `${fault}${prior === undefined ? '' : ` (${prior})`}`;
  const out = entry(probability, head, say, styles.strong);
  if (alike.length > 0) {
    const names = alike.slice(0, ALIKE_NAMED).map((each) => each.fault);
    const others = alike.length - names.length;
    out.push(
      ...say(
        `or, and nothing here tells which: ${names.join('; ')}${others > 0 ? `; and ${others} more` : ''}`,
        INDENT,
      ),
    );
  }
  if (speaksFor.length > 0) out.push(...say(`for: ${speaksFor.join('; ')}`, INDENT));
  if (against.length > 0) out.push(...say(`against: ${against.join('; ')}`, INDENT));
  for (const danger of dangers)
    out.push(...say(`danger: ${danger}`, INDENT).map((line) => styles.of('error', line)));
  return out;
}

function theRest(
  { suspects, sound, unseen }: Suspects,
  shown: readonly Suspect[],
  say: Say,
): string[] {
  const others = suspects.length - shown.length;
  const whole = shown.reduce((sum, { probability }) => sum + probability, 0);
  const rest = Math.max(0, 1 - whole - sound);
  const hidden =
    unseen.length > 0
      ? `, or ${unseen.length === 1 ? 'a fault' : `one of ${unseen.length} faults`} that neither meter nor ear tells`
      : '';
  return [
    ...(others > 0 ? entry(rest, `${counted(others, 'other suspect')} together`, say) : []),
    ...(sound >= LEAST_SHOWN ? entry(sound, `nothing is the matter${hidden}`, say) : []),
  ];
}

/** From this share on a suspect is looked at, and nothing more is measured. */
const SETTLED = 0.95;

function nextLines({ next, suspects }: Suspects, say: Say, styles: Styles): string[] {
  const [first] = suspects;
  const isSettled = first && first.probability >= SETTLED && first.alike.length === 0;
  if (isSettled) return [...say(`Next: look at ${first.part}.`)].map(styles.strong);
  if (!next)
    return [
      ...say(
        'Next: nothing that a meter, the ear or a dial can tell sets those apart that are left. Try them one at a time: another tube, a condenser bridged, a lead moved.',
      ),
    ];
  return [
    ...say(`Next: ${next.words}`).map((line) => styles.strong(line)),
    ...say(next.because, '      '),
    ...say(`Write in the bench: ${next.line}`, '      '),
  ];
}
