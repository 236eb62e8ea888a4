export { type DrawOptions, drawCircuit } from './draw.ts';
export { layoutOptions } from './layout.ts';
export {
  type LayoutEdge,
  type LayoutEngine,
  type LayoutNode,
  layoutEngine,
} from './layout-engine.ts';
export { type LayoutMemory, layoutMemory } from './layout-memory.ts';
export { type Page, pageToSvg } from './page/page-svg.ts';
export { type PaperName, papers } from './page/papers.ts';
export { misread, netlistOf } from './read-back.ts';
export { readGeometry } from './read-geometry.ts';
export type * from './scene.ts';
export { type SvgOptions, sceneToSvg } from './svg.ts';
export { lettersToFind } from './svg-letters.ts';
export type { Theme } from './svg-look.ts';
export type { SymbolStyle } from './symbols.ts';
export { type Dressing, type DressingOptions, dress } from './views/dressing.ts';
export { type Figure, type FigureOptions, figuresOf } from './views/figures.ts';
export type * from './views/overlay.ts';
export { setAtWork } from './views/set-at-work.ts';
export { type StageOnPaper, stagesOf } from './views/stage-areas.ts';
export type { Change } from './views/suppose-view.ts';
export { type OverlayOptions, overlayOf, type View, viewsOf } from './views/views.ts';
