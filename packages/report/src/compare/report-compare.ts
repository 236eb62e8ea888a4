import type { Finding } from '@setwright/circuit';
import { plain } from '../text/markdown.ts';
import type { Styles } from '../text/styles.ts';
import { tableOf } from '../text/table.ts';
import { printableJson, visible } from '../text/visible.ts';
import { wrapped } from '../text/wrapped.ts';
import { quantities } from '../values/quantities.ts';
import type { ComparedReceiver, ComparedSet } from './compared.ts';
import type { NumberMoved } from './numbers-moved.ts';
import type { Sentence, SentenceKind } from './sentence.ts';

/** Two files compared. */
export interface ComparedFiles {
  /** What the files are called. */
  readonly old: string;
  readonly now: string;
  readonly receivers: readonly ComparedReceiver[];
  /** What was not read, and what that means: plain sentences. */
  readonly cautions: readonly string[];
}

/** What the sentences of a kind stand under. */
export const kindWords: Readonly<Record<SentenceKind, string>> = {
  removed: 'Taken away',
  added: 'New',
  changed: 'Changed',
  moved: 'Joined otherwise',
  renamed: 'Called otherwise',
  said: 'Said otherwise, with no effect on the circuit',
};

/** Whether two files say the same of every set. */
export function saysTheSame({ receivers }: ComparedFiles): boolean {
  return receivers.every(({ status }) => status === 'same');
}

const NO_DIFFERENCE = 'No difference: the sets are the same, however they are written.';

/** For a person at a terminal. */
export function compareInWords(
  files: ComparedFiles,
  { styles, columns }: { readonly styles: Styles; readonly columns: number },
): string {
  const width = Math.max(50, Math.min(columns, 100));
  const out: string[] = [];
  const say = (text: string, indent = '  ') => out.push(...wrapped(visible(text), width, indent));
  for (const caution of files.cautions) say(`Caution: ${caution}`, '');
  if (files.cautions.length > 0) out.push('');
  if (saysTheSame(files)) return `${[...out, NO_DIFFERENCE].join('\n')}\n`;
  for (const set of files.receivers) {
    if (set.status === 'same') continue;
    out.push(styles.strong(visible(headingOf(set))));
    if ('summary' in set) for (const sentence of set.summary) say(sentence);
    else tellSet(set, out, say, styles);
    out.push('');
  }
  return `${out.join('\n').trimEnd()}\n`;
}

function headingOf(set: ComparedReceiver): string {
  if (!('summary' in set)) return set.now.title || 'Receiver without a name';
  const title = set.circuit.title || 'Receiver without a name';
  return set.status === 'new' ? `${title}: this set is new` : `${title}: this set is gone`;
}

function tellSet(
  set: ComparedSet,
  out: string[],
  say: (text: string, indent?: string) => void,
  styles: Styles,
): void {
  for (const [kind, sentences] of grouped(set.sentences)) {
    out.push('', `  ${styles.strong(kindWords[kind])}`);
    for (const each of sentences) say(`- ${underHeading(each)}`, '    ');
  }
  const { numbers, findings } = set;
  if (numbers && numbers.numbers.length > 0) {
    out.push('', `  ${styles.strong('What it does to the numbers')}`, '');
    const lines = numbers.numbers.map((each) =>
      [lineOf(each), each.beforeText, each.afterText].map(visible),
    );
    out.push(...tableOf(['', 'before', 'after'], lines, '    '));
  }
  if (numbers?.stability) {
    out.push('', `  ${styles.strong('Whether it squeals')}`);
    say(`before: ${numbers.stability.before}`, '    ');
    say(`after: ${numbers.stability.after}`, '    ');
  }
  tellFindings('New findings', findings.fresh, true, out, say, styles);
  tellFindings('Findings cured', findings.cured, false, out, say, styles);
}

function tellFindings(
  heading: string,
  findings: readonly Finding[],
  withCure: boolean,
  out: string[],
  say: (text: string, indent?: string) => void,
  styles: Styles,
): void {
  if (findings.length === 0) return;
  out.push('', `  ${styles.strong(heading)}`);
  for (const { severity, message, cure, check } of findings) {
    say(`- ${severity}: ${message} [${check}]`, '    ');
    if (withCure) say(`cure: ${cure}`, '      ');
  }
}

/** Sentences by kind, in the order in which the kinds come. */
function grouped(sentences: readonly Sentence[]): Map<SentenceKind, Sentence[]> {
  const groups = new Map<SentenceKind, Sentence[]>();
  for (const each of sentences) groups.set(each.kind, [...(groups.get(each.kind) ?? []), each]);
  return groups;
}

/** Under a heading that says so a sentence need not begin with `New:`. */
export function underHeading({ kind, text }: Sentence): string {
  if (kind !== 'removed' && kind !== 'added') return text;
  const bare = text.replace(/^(?:Gone|New): /, '');
  return bare.slice(0, 1).toUpperCase() + bare.slice(1);
}

function lineOf({ part, words }: NumberMoved): string {
  return `${part}, ${words}`;
}

/** For a comment of a code host. Nothing in it but Markdown, whatever names and titles say. */
export function compareInMarkdown(files: ComparedFiles): string {
  const out: string[] = [`### ${plain(files.now)}`];
  for (const caution of files.cautions) out.push(`> **Caution:** ${plain(caution)}`);
  if (saysTheSame(files)) out.push(NO_DIFFERENCE);
  for (const set of files.receivers) {
    if (set.status === 'same') continue;
    out.push(`**${plain(headingOf(set))}**`);
    if ('summary' in set) out.push(set.summary.map(plain).join(' '));
    else out.push(...markdownOf(set));
  }
  return `${out.join('\n\n')}\n`;
}

function markdownOf({ sentences, numbers, findings }: ComparedSet): string[] {
  const out: string[] = [];
  for (const [kind, all] of grouped(sentences)) {
    out.push(`*${kindWords[kind]}*`);
    out.push(all.map((each) => `- ${plain(underHeading(each))}`).join('\n'));
  }
  if (numbers && numbers.numbers.length > 0) {
    const rows = numbers.numbers.map(
      (each) => `| ${plain(lineOf(each))} | ${plain(each.beforeText)} | ${plain(each.afterText)} |`,
    );
    out.push('*What it does to the numbers*');
    out.push(['| | before | after |', '| --- | ---: | ---: |', ...rows].join('\n'));
  }
  if (numbers?.stability) {
    const { before, after } = numbers.stability;
    out.push('*Whether it squeals*');
    out.push(`- before: ${plain(before)}\n- after: ${plain(after)}`);
  }
  const told = (all: readonly Finding[]) =>
    all
      .map(({ severity, message, check }) => `- ${severity}: ${plain(message)} (${plain(check)})`)
      .join('\n');
  if (findings.fresh.length > 0) out.push('*New findings*', told(findings.fresh));
  if (findings.cured.length > 0) out.push('*Findings cured*', told(findings.cured));
  return out;
}

/** For other programs: every difference as data, its sentence, numbers in SI units. */
export function compareInJson(files: ComparedFiles): string {
  const report = {
    version: 1,
    old: files.old,
    new: files.now,
    same: saysTheSame(files),
    cautions: files.cautions,
    receivers: files.receivers.map(receiverInJson),
  };
  return `${printableJson(report)}\n`;
}

function receiverInJson(set: ComparedReceiver) {
  if ('summary' in set)
    return { title: set.circuit.title, status: set.status, summary: set.summary };
  const { old, now, status, differences, sentences, numbers, findings } = set;
  const finding = ({ check, severity, message, why, cure, parts }: Finding) => ({
    check,
    severity,
    message,
    why,
    cure,
    parts,
  });
  return {
    title: now.title,
    before: old.title,
    status,
    sentences: sentences.map(({ kind, text, before, after }) => ({
      kind,
      text,
      oldParts: before,
      newParts: after,
    })),
    differences,
    numbers:
      numbers?.numbers.map(({ part, quantity, at, words, before, after }) => ({
        part,
        quantity,
        at: at ?? null,
        words,
        unit: quantities[quantity].unit,
        before: before ?? null,
        after: after ?? null,
      })) ?? [],
    stability: numbers?.stability ?? null,
    findings: { new: findings.fresh.map(finding), cured: findings.cured.map(finding) },
  };
}
