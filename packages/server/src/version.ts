declare const SETWRIGHT_VERSION: string | undefined;

/** The version of the package that this was built from. */
export const version: string =
  typeof SETWRIGHT_VERSION === 'string' ? SETWRIGHT_VERSION : '0.0.0-unbuilt';
