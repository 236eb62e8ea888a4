// Refuses a lockfile that ties the project to one registry or leaves a package unsealed.
// Downloads must come from whatever registry the reader's npm is set to.
import { readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = dirname(dirname(fileURLToPath(import.meta.url)));
const lock = JSON.parse(readFileSync(join(root, 'package-lock.json'), 'utf8'));
const faults = [];

// Pages about a package, not places to download it from.
const proseKeys = new Set(['funding', 'deprecated', 'license']);

function refuseAddresses(value, path) {
  if (typeof value === 'string') {
    if (value.includes('://') || value.endsWith('.tgz')) faults.push(`${path} holds ${value}`);
    return;
  }
  if (value === null || typeof value !== 'object') return;
  for (const [key, inner] of Object.entries(value)) {
    if (!proseKeys.has(key)) refuseAddresses(inner, `${path} > ${key}`);
  }
}

if (lock.lockfileVersion !== 3) faults.push(`lockfileVersion is ${lock.lockfileVersion}, not 3`);
refuseAddresses(lock, 'package-lock.json');
for (const [path, entry] of Object.entries(lock.packages ?? {})) {
  const isDownloaded = path.includes('node_modules/') && !entry.link && !entry.inBundle;
  if (isDownloaded && !entry.integrity) faults.push(`${path} has no integrity hash`);
}

for (const fault of faults) console.error(fault);
if (faults.length > 0) process.exit(1);
console.log(`${Object.keys(lock.packages).length} entries, no registry named`);
