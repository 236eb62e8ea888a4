import { readingsOf } from '@setwright/bench';
import { benchRemarks, benchTables } from '@setwright/report';
import type { PageRequest } from '@setwright/webview';
import { type PageBody, type PageSource, wordsOnly } from './page-source.ts';

/** What a meter should read, beside what was read: one chart for each bench of the text. */
export function benchPage({ snapshot, units }: PageSource, { receiver }: PageRequest): PageBody {
  const circuit = snapshot.file.circuits[receiver];
  if (!circuit) return wordsOnly();
  const benches = circuit.benches.length > 0 ? circuit.benches : [undefined];
  const laws = new WeakMap();
  const charts = benches.map((bench) => readingsOf(circuit, { bench, laws }));
  return {
    ...wordsOnly(...new Set(charts.flatMap(benchRemarks))),
    tables: charts.flatMap((chart) =>
      benchTables(chart, units).map((table) => ({
        ...table,
        title:
          charts.length > 1 && chart.bench ? `${chart.bench.title}: ${table.title}` : table.title,
      })),
    ),
  };
}
