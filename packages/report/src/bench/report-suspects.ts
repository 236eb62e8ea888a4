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
      contradictions.map(({ words, cure, places, parts }) => ({
        message: words,
        cure,
        lines: places.map(({ line }) => line + 1),
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
  out.push(...say(theRest(suspects, shown), '       '), '');
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
  return `${(100 * probability).toFixed(0)} %`;
}

function suspectLines(suspect: Suspect, say: Say, styles: Styles): string[] {
  const { fault, probability, speaksFor, against, alike, dangers, faults } = suspect;
  const prior = faults.length === 1 ? faults[0]?.prior : undefined;
  const head = `${fault}${prior === undefined ? '' : ` (${prior})`}`;
  const indent = '         ';
  const [first = '', ...more] = say(head, indent);
  const out = [
    `${percent(probability).padStart(6)}   ${styles.strong(first.trimStart())}`,
    ...more,
  ];
  if (alike.length > 0) {
    const names = alike.slice(0, ALIKE_NAMED).map((each) => each.fault);
    const others = alike.length - names.length;
    out.push(
      ...say(
        `alike to every reading: ${names.join('; ')}${others > 0 ? `; and ${others} more` : ''}`,
        indent,
      ),
    );
  }
  if (speaksFor.length > 0) out.push(...say(`for: ${speaksFor.join('; ')}`, indent));
  if (against.length > 0) out.push(...say(`against: ${against.join('; ')}`, indent));
  for (const danger of dangers)
    out.push(...say(`danger: ${danger}`, indent).map((line) => styles.of('error', line)));
  return out;
}

function theRest({ suspects, sound, unseen }: Suspects, shown: readonly Suspect[]): string {
  const others = suspects.length - shown.length;
  const whole = shown.reduce((sum, { probability }) => sum + probability, 0);
  const rest = Math.max(0, 1 - whole - sound);
  const told = [
    ...(others > 0 ? [`${counted(others, 'other suspect')}: ${percent(rest)} together`] : []),
    `nothing the matter that any of this could show: ${percent(sound)}${unseen.length > 0 ? `, ${counted(unseen.length, 'fault')} that neither meter nor ear tells among it` : ''}`,
  ];
  return `${told.join('; ')}.`;
}

function nextLines({ next }: Suspects, say: Say, styles: Styles): string[] {
  if (!next)
    return [
      ...say('Nothing that a meter, the ear or a dial can tell sets those apart that are left.'),
    ];
  return [
    ...say(`Next: ${next.words}`).map((line) => styles.strong(line)),
    ...say(next.because, '      '),
    ...say(`Write in the bench: ${next.line}`, '      '),
  ];
}
