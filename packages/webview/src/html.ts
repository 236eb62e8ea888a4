/** The preview's page. It is set once; everything that is seen comes by message. Pure. */
export function previewHtml(given: {
  /** Where the editor serves the extension's own files from. */
  readonly cspSource: string;
  /** A new random word each time: only the script that carries it runs. */
  readonly nonce: string;
  readonly script: string;
  readonly style: string;
}): string {
  const { cspSource, nonce, script, style } = given;
  const policy = [
    "default-src 'none'",
    `script-src 'nonce-${nonce}'`,
    `style-src ${cspSource}`,
    // A drawing becomes a picture of points by way of an image made from its own text.
    'img-src blob:',
    "base-uri 'none'",
    "form-action 'none'",
  ].join('; ');
  return `<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${attribute(policy)}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>Setwright</title>
<link rel="stylesheet" href="${attribute(style)}">
</head>
<body>
<script nonce="${attribute(nonce)}" src="${attribute(script)}"></script>
</body>
</html>
`;
}

const attribute = (text: string): string =>
  text.replaceAll('&', '&amp;').replaceAll('"', '&quot;').replaceAll('<', '&lt;');
