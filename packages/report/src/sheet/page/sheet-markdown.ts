import { svgOf } from '../../chart/svg-chart.ts';
import { plain } from '../../text/markdown.ts';
import type { Sheet, SheetBlock, SheetTable } from '../sheet.ts';

/** A sheet as Markdown, with the pictures that belong beside it by their file names. */
export interface SheetInMarkdown {
  readonly text: string;
  readonly pictures: ReadonlyMap<string, string>;
}

/**
 * A sheet as Markdown.
 *
 * @param drawing the schematic as SVG for a file; undefined leaves its section out
 * @param stem what the file names of its pictures begin with
 */
export function sheetMarkdown(
  sheet: Sheet,
  drawing: string | undefined,
  stem = 'sheet',
): SheetInMarkdown {
  const pictures = new Map<string, string>();
  const keep = (name: string, svg: string): string => {
    const file = `${stem}-${name}.svg`;
    pictures.set(file, svg);
    return file;
  };
  const parts = [
    `# ${plain(sheet.title)}: service sheet`,
    sheet.facts
      .map(({ term, cell }) => `- **${plain(term)}**: ${cell ? plain(cell.text) : '\\_\\_\\_\\_'}`)
      .join('\n'),
    ...sheet.sections
      .filter(({ id }) => id !== 'drawing' || drawing !== undefined)
      .flatMap(({ id, heading, blocks }) => [
        `## ${plain(heading)}`,
        ...blocks.flatMap((block) => blockText(block, id)),
      ]),
    ...(sheet.madeBy === undefined ? [] : [`*${plain(sheet.madeBy)}*`]),
  ];
  return { text: `${parts.join('\n\n')}\n`, pictures };

  function blockText(block: SheetBlock, id: string): readonly string[] {
    switch (block.kind) {
      case 'words':
        return [
          block.tone === 'caution' ? `**Caution.** ${plain(block.words)}` : plain(block.words),
        ];
      case 'list':
        return [
          block.items
            .map((item, index) => `${block.isOrdered ? `${index + 1}.` : '-'} ${plain(item)}`)
            .join('\n'),
        ];
      case 'table':
        return tableText(block.table);
      case 'charts':
        return block.charts.map((chart, index) => {
          const file = keep(index === 0 ? id : `${id}-${index + 1}`, svgOf([chart], 'light'));
          return `![${plain(chart.title)}](${file})`;
        });
      case 'drawing':
        return [`![Schematic of ${plain(sheet.title)}](${keep('schematic', drawing ?? '')})`];
    }
  }
}

function tableText({ caption, columns, rows, groups }: SheetTable): readonly string[] {
  const line = (cells: readonly string[]): string => `| ${cells.map(plain).join(' | ')} |`;
  return [
    ...(caption === undefined ? [] : [`**${plain(caption)}**`]),
    [
      line(columns.map(({ words }) => words)),
      `| ${columns.map(({ kind }) => (kind === 'amount' ? '---:' : '---')).join(' | ')} |`,
      ...rows.flatMap((row, index) => [
        ...groups
          .filter(({ before }) => before === index)
          .map(({ words }) => `| **${plain(words)}** |${' |'.repeat(columns.length - 1)}`),
        line(row.map(({ text }) => text)),
      ]),
    ].join('\n'),
  ];
}
