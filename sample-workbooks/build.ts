import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { workbooks } from './workbooks';
import { calculatedFile } from './calculated';

/** Writes every sample workbook beside its description. */
async function build(): Promise<void> {
  for (const workbook of workbooks) {
    writeFileSync(join(__dirname, `${workbook.file}.xlsx`), await calculatedFile(workbook));
    console.log(`sample-workbooks/${workbook.file}.xlsx`);
  }
}

void build();
