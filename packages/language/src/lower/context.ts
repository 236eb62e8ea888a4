import type { Finding, Fix, Place, Severity } from '@setwright/circuit';
import { type AstNode, type CstNode, GrammarUtils } from 'langium';

/** What the lowering of one text carries along. */
export interface Lowering {
  readonly file: string;
  readonly text: string;
  /** Findings made while reading, by receiver. */
  readonly remarks: Finding[];
  /** Places that could not be read, by receiver. */
  readonly unread: Place[];
  /** Offsets of lines of which only the beginning could be read. */
  readonly partly?: ReadonlySet<number>;
}

export function placeAt(cx: Lowering, start: number, end: number): Place {
  return { file: cx.file, start, end: Math.max(start, end) };
}

function placeOfCst(cx: Lowering, node: CstNode | undefined): Place {
  return node ? placeAt(cx, node.offset, node.end) : placeAt(cx, 0, 0);
}

export function placeOf(cx: Lowering, node: AstNode | undefined): Place {
  return placeOfCst(cx, node?.$cstNode);
}

/**
 * Where a property of a node stands, or one of its values by index; the node itself when the
 * property has no words of its own.
 */
export function placeOfProperty(
  cx: Lowering,
  node: AstNode,
  property: string,
  index?: number,
): Place {
  const found = GrammarUtils.findNodeForProperty(node.$cstNode, property, index);
  return placeOfCst(cx, found ?? node.$cstNode);
}

/** The statement without its block. */
export function headPlace(cx: Lowering, node: AstNode & { open?: string }): Place {
  const whole = placeOf(cx, node);
  if (!node.open) return whole;
  const brace = GrammarUtils.findNodeForProperty(node.$cstNode, 'open');
  if (!brace) return whole;
  let end = brace.offset;
  while (end > whole.start && /\s/.test(cx.text[end - 1] ?? '')) end -= 1;
  return placeAt(cx, whole.start, end);
}

/** The words of a quoted title, without its marks. */
export function unquoted(text: string | undefined): string | undefined {
  return text?.replace(/^"/, '').replace(/"$/, '');
}

export interface RemarkWords {
  readonly message: string;
  readonly why: string;
  readonly cure: string;
}

/** Notes a finding about the reading of the text. */
export function remark(
  cx: Lowering,
  check: string,
  severity: Severity,
  place: Place,
  words: RemarkWords,
  more: {
    fixes?: readonly Fix[];
    parts?: readonly string[];
    related?: Finding['related'];
  } = {},
): void {
  cx.remarks.push({
    check,
    severity,
    ...words,
    place,
    related: more.related ?? [],
    parts: more.parts ?? [],
    fixes: more.fixes ?? [],
  });
}

export function replacing(title: string, place: Place, text: string): Fix {
  return { title, edits: [{ place, text }] };
}

/** A fix that puts words in before a place. */
export function inserting(title: string, place: Place, text: string): Fix {
  return replacing(title, { ...place, end: place.start }, text);
}

/** The same text, with remarks going nowhere: for what is read a second time. */
export function muted(cx: Lowering): Lowering {
  return { ...cx, remarks: [], unread: [] };
}
