/**
 * A short name for a text that is the same on every machine and in every run: FNV-1a with 64 bits
 * (G. Fowler, L. C. Noll and K.-P. Vo, "The FNV Non-Cryptographic Hash Algorithm", IETF draft;
 * constants from memory) over its UTF-8 bytes, in hexadecimal.
 */
export function fingerprint(text: string): string {
  let hash = 0xcbf29ce484222325n;
  for (const byte of Buffer.from(text, 'utf8'))
    hash = BigInt.asUintN(64, (hash ^ BigInt(byte)) * 0x100000001b3n);
  return hash.toString(16).padStart(16, '0');
}
