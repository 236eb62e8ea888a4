/** What paints pixels: a native part, loaded only when a picture is wanted. */
type Painter = typeof import('@resvg/resvg-js');

/** A picture, or why there is none. */
export type Picture =
  | { readonly png: Uint8Array }
  | { readonly painterMissing: string }
  | { readonly tooLarge: { readonly width: number; readonly height: number } };

/** Dots that a picture may have: 600 to the inch on the larger sheets. */
const MOST_DOTS = 64e6;

/** Dots of a millimetre at scale 1: 96 to the inch, as on screens. */
const DOTS_PER_MILLIMETRE = 96 / 25.4;

/**
 * Paints a drawing. Its letters are outlines, so no font is needed but for `strangeLetters`, for
 * which those of the machine are looked through.
 *
 * @param scale dots for each drawing unit, or for each 1/96 inch of a page
 */
export async function pngOf(
  svg: string,
  scale: number,
  strangeLetters: string,
  load: () => Promise<Painter> = () => import('@resvg/resvg-js'),
): Promise<Picture> {
  const size = sizeOf(svg, scale);
  if (size.width * size.height > MOST_DOTS) return { tooLarge: size };
  let painter: Painter;
  try {
    painter = await load();
  } catch (error) {
    const [reason = ''] = (error instanceof Error ? error.message : String(error)).split('\n');
    return { painterMissing: reason };
  }
  const { Resvg } = painter;
  const font = { loadSystemFonts: strangeLetters !== '' };
  const image = new Resvg(svg, { font, fitTo: { mode: 'zoom', value: scale } }).render();
  return { png: image.asPng() };
}

/** Width and height in dots, from the outermost tag. */
function sizeOf(svg: string, scale: number): { width: number; height: number } {
  const dots = (name: string): number => {
    const [, amount = '0', unit] =
      new RegExp(`<svg [^>]* ${name}="([\\d.]+)(mm)?"`).exec(svg) ?? [];
    return Math.round(Number(amount) * (unit ? DOTS_PER_MILLIMETRE : 1) * scale);
  };
  return { width: dots('width'), height: dots('height') };
}
