// Where the repository and what is built of it lie.

import { dirname, join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';

export const root = resolve(dirname(fileURLToPath(import.meta.url)), '..', '..', '..');
export const target = resolve(root, process.env.CARGO_TARGET_DIR ?? 'target');
export const shots = join(target, 'screens');
