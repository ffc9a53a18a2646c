import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { withFunctionTable } from '../../worksheet/functionTable';

// `npm run docs`: brings the README's function table up to the catalogue.

const path = join(__dirname, '../../../README.md');
writeFileSync(path, withFunctionTable(readFileSync(path, 'utf8')));
