declare const SETWRIGHT_VERSION: string | undefined;
declare const SETWRIGHT_DIGEST: string | undefined;

/** The version of the package that this was built from. */
export const version: string =
  typeof SETWRIGHT_VERSION === 'string' ? SETWRIGHT_VERSION : '0.0.0-unbuilt';

/** A hash of the whole tool as built: two tools with the same one give the same answers. */
export const toolDigest: string =
  typeof SETWRIGHT_DIGEST === 'string' ? SETWRIGHT_DIGEST : 'unbuilt';
