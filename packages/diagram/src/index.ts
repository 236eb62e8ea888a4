export { type DrawOptions, drawCircuit } from './draw.ts';
export { layoutOptions } from './layout.ts';
export {
  type LayoutEdge,
  type LayoutEngine,
  type LayoutNode,
  layoutEngine,
} from './layout-engine.ts';
export { misread, netlistOf } from './read-back.ts';
export { readGeometry } from './read-geometry.ts';
export type * from './scene.ts';
export { type SvgOptions, sceneToSvg, type Theme } from './svg.ts';
export type { SymbolStyle } from './symbols.ts';
