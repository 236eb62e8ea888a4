/** A drawing becomes a picture of points at twice its size. */
const enlarged = 2;
/** Points to the inch of a sheet of paper, and those that a browser reckons an inch at. */
const [printed, reckoned] = [300, 96];
/** No side longer than this: browsers refuse larger canvases. */
const longest = 12_000;

/** An SVG as PNG, fine enough for print. Rejects with words for people where it cannot be drawn. */
export async function pointsOf(svg: string): Promise<Blob> {
  const address = URL.createObjectURL(new Blob([svg], { type: 'image/svg+xml' }));
  try {
    const image = new Image();
    image.src = address;
    await image.decode();
    const [width, height] = [image.naturalWidth || 800, image.naturalHeight || 600];
    const isSheet = /^<svg[^>]* width="[\d.]+mm"/.test(svg);
    const wanted = isSheet ? printed / reckoned : enlarged;
    const factor = Math.min(wanted, longest / width, longest / height);
    const canvas = document.createElement('canvas');
    canvas.width = Math.round(width * factor);
    canvas.height = Math.round(height * factor);
    const context = canvas.getContext('2d');
    if (!context) throw new Error('The editor gives no canvas to draw on.');
    context.drawImage(image, 0, 0, canvas.width, canvas.height);
    return await new Promise((resolve, reject) => {
      canvas.toBlob((blob) => {
        if (blob) resolve(blob);
        else reject(new Error('The drawing is too large for a picture; keep it as SVG.'));
      }, 'image/png');
    });
  } finally {
    URL.revokeObjectURL(address);
  }
}

/** The bytes in base 64. */
export async function inBase64(blob: Blob): Promise<string> {
  const bytes = new Uint8Array(await blob.arrayBuffer());
  const pieces: string[] = [];
  for (let at = 0; at < bytes.length; at += 0x8000) {
    pieces.push(String.fromCharCode(...bytes.subarray(at, at + 0x8000)));
  }
  return btoa(pieces.join(''));
}
