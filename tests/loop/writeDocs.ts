import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { withFunctionTable } from '../../src/worksheet/functionTable';

// `npm run docs`, second half: brings the README's function table up to the catalogue.

const path = join(__dirname, '../../README.md');
writeFileSync(path, withFunctionTable(readFileSync(path, 'utf8')));
