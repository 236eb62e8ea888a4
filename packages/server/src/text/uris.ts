/** Whether two addresses are one, however their signs are written. */
export function isSameUri(one: string, other: string): boolean {
  return one === other || plain(one) === plain(other);
}

function plain(uri: string): string {
  try {
    return decodeURIComponent(uri);
  } catch {
    return uri;
  }
}
