import type { Workbook } from '../../src/hosts/xlsx/describe';
import { strains } from '../farm-book/strains';
import { lineage } from './lineage';
import { logger } from './logger';
import { ownSheet } from './ownSheet';
import { planning } from './planning';
import { ripening } from './ripening';
import { start } from './start';

export const incubationBook: Workbook = {
  file: 'incubation-book',
  title: 'Incubation book of an invented farm',
  sheets: [start, strains, ripening, planning, logger, lineage, ownSheet],
};
