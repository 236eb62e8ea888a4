import type { Circuit } from '@setwright/circuit';
import { drawCircuit, layoutEngine, sceneToSvg, type Theme } from '@setwright/diagram';

/** How a schematic is to look. */
export interface SchematicOptions {
  readonly theme: Theme;
  readonly symbols: 'modern' | 'period';
  readonly rows: 'page' | 'one';
}

/** Lays a set out and draws it, as SVG. In a bundle of its own: the layout engine is large. */
export async function schematicOf(circuit: Circuit, options: SchematicOptions): Promise<string> {
  const scene = await drawCircuit(circuit, layoutEngine(), { rows: options.rows });
  return sceneToSvg(scene, { theme: options.theme, symbols: options.symbols });
}
