export {
  benchInCsv,
  benchInJson,
  benchInMarkdown,
  benchInWords,
  benchRemarks,
  benchTables,
} from './bench/report-bench.ts';
export { faultsInCsv, faultsInJson, faultsInWords } from './bench/report-faults.ts';
export { suspectsInJson, suspectsInWords } from './bench/report-suspects.ts';
export { supposeChanges } from './bench/suppose-changes.ts';
export { svgOf, type Theme } from './chart/svg-chart.ts';
export { terminalChart } from './chart/terminal-chart.ts';
export {
  type CollectionEntry,
  collectionMark,
  collectionPage,
} from './collection/collection-page.ts';
export { type CollectionRow, collectionRow } from './collection/row.ts';
export { compareTables } from './compare/compare-tables.ts';
export {
  type ComparedReceiver,
  type ComparedSet,
  comparedReceivers,
  type LoneSet,
} from './compare/compared.ts';
export { describedSet } from './compare/describe.ts';
export { markedSet } from './compare/marked-set.ts';
export {
  type ComparedFiles,
  compareInJson,
  compareInMarkdown,
  compareInWords,
  saysTheSame,
} from './compare/report-compare.ts';
export { dialChart } from './dials/dial-chart.ts';
export { type DialReadings, dialColumns, dialReadings, headingOf } from './dials/dial-readings.ts';
export {
  dialsReversed,
  dialsReversedInCsv,
  dialsReversedInJson,
  dialsReversedInWords,
} from './dials/dials-reversed.ts';
export { dialsInCsv, dialsInJson, dialsInWords } from './dials/report-dials.ts';
export { frequencyNamed, stationsOver } from './dials/stations.ts';
export { responseInCsv, responseInJson, responseInWords } from './response/report-response.ts';
export { responseCharts } from './response/response-charts.ts';
export { responseOf, type SetResponse } from './response/response-of.ts';
export { quietWords, verdictWords } from './response/squeal-words.ts';
export { largestOnSheet } from './sheet/page/largest-on-sheet.ts';
export { sheetMarkdown } from './sheet/page/sheet-markdown.ts';
export { type SheetPageOptions, sheetPage, sheetStyles } from './sheet/page/sheet-page.ts';
export type { Sheet } from './sheet/sheet.ts';
export type { SheetOptions } from './sheet/sheet-grounds.ts';
export { sheetOf } from './sheet/sheet-of.ts';
export { displayWidth } from './text/display-width.ts';
export { gathered } from './text/gathered.ts';
export { plainStyles, type Styles } from './text/styles.ts';
export { tableOf } from './text/table.ts';
export { printableJson, visible } from './text/visible.ts';
export { counted, linesListed, listed, putRight } from './text/words.ts';
export { wrapped } from './text/wrapped.ts';
export { tourMarkdown } from './tour/page/tour-markdown.ts';
export { tourPage } from './tour/page/tour-page.ts';
export { previewTour } from './tour/preview-steps.ts';
export { type Tour, type TourLevel, tourLevels } from './tour/tour.ts';
export { tourOf } from './tour/tour-of.ts';
export { bandOf } from './values/bands.ts';
export { type Quantity, quantityText, type UnitStyle } from './values/quantities.ts';
export { groundsOf } from './values/reason.ts';
export { nameOf, valuesInCsv, valuesInJson, valuesInWords } from './values/report-values.ts';
export type { ValueRow } from './values/rows.ts';
export { type PartValues, type SetValues, valuesOf } from './values/values-of.ts';
