import { printableJson } from '@setwright/report';

/**
 * An object as indented JSON of which one member is a list that is written item by item:
 * `{ …before, [name]: […], …after }`, the very text that writing it whole would give.
 *
 * @param indent spaces that every line of it but the first begins with
 */
export function streamedList(
  before: Readonly<Record<string, unknown>>,
  name: string,
  indent: string,
): {
  readonly head: string;
  items(items: readonly unknown[]): string;
  end(after: Readonly<Record<string, unknown>>): string;
} {
  let isEmpty = true;
  return {
    head: `{\n${membersOf(before, indent)},\n${indent}  ${JSON.stringify(name)}: [`,
    items: (items) => {
      const written = items.map((item) => {
        const comma = isEmpty ? '' : ',';
        isEmpty = false;
        return `${comma}\n${indent}    ${shifted(printableJson(item), `${indent}    `)}`;
      });
      return written.join('');
    },
    end: (after) => `${isEmpty ? ']' : `\n${indent}  ]`},\n${membersOf(after, indent)}\n${indent}}`,
  };
}

/** The members of an object, without its braces. */
function membersOf(object: Readonly<Record<string, unknown>>, indent: string): string {
  const lines = printableJson(object).split('\n').slice(1, -1);
  return lines.map((line) => `${indent}${line}`).join('\n');
}

/** No line end stands within a string of JSON, so every line may be shifted. */
const shifted = (json: string, indent: string) => json.replaceAll('\n', `\n${indent}`);
