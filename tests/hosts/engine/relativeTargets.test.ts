import { expect, test } from '@jest/globals';
import { withRelativeTargets } from '../../../src/hosts/engine/relativeTargets';

// Some programs that write workbooks name a part from the root of the file (ISO/IEC 29500-2, 9.2), which the engine's
// own reader does not follow: such books came without widths, fills and charts.

test('what one part says of another is told from where it says it, and nothing else changes', () => {
  const parts = {
    '_rels/.rels': '<Relationship Target="/xl/workbook.xml"/>',
    'xl/_rels/workbook.xml.rels':
      '<Relationship Target="/xl/worksheets/sheet1.xml"/><R Target="styles.xml"/>',
    'xl/worksheets/_rels/sheet1.xml.rels': '<Relationship Target="/xl/tables/table1.xml"/>',
    'xl/drawings/_rels/drawing1.xml.rels': '<Relationship Target="../charts/chart1.xml"/>',
    'xl/worksheets/sheet1.xml': '<t> Target="/xl/</t>',
  };
  expect(withRelativeTargets(parts)).toEqual({
    ...parts,
    'xl/_rels/workbook.xml.rels': '<Relationship Target="worksheets/sheet1.xml"/><R Target="styles.xml"/>',
    'xl/worksheets/_rels/sheet1.xml.rels': '<Relationship Target="../tables/table1.xml"/>',
  });
});
