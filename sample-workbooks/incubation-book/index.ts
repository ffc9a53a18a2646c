import type { Workbook } from '../../src/hosts/xlsx/describe';
import { strains } from '../farm-book/strains';
import { family, labels, origin, recall } from './lineage';
import { growth, logger } from './logger';
import { ownSheet } from './ownSheet';
import { inoculateBy, spawn, weeks } from './planning';
import { records } from './records';
import { ripening } from './ripening';
import { stages } from './stages';
import { start } from './start';

export const incubationBook: Workbook = {
  file: 'incubation-book',
  title: 'Incubation book of an invented farm',
  sheets: [
    ...[start, ripening, records, weeks, inoculateBy, spawn, logger, growth],
    ...[recall, origin, labels, ownSheet, strains, stages, family],
  ],
};
