import { describe, expect, test } from '@jest/globals';
import ExcelJS from 'exceljs';
import { propertyOf, withProperty } from '../../../src/hosts/xlsx/properties';
import { readWorkbook } from '../../../src/hosts/xlsx/read';
import { partsIn, textIn } from './packages';

async function made(): Promise<Uint8Array> {
  const workbook = new ExcelJS.Workbook();
  workbook.addWorksheet('Mine').getCell('A1').value = 1;
  return new Uint8Array(await workbook.xlsx.writeBuffer());
}

describe('a custom property of a workbook', () => {
  test('is set where there was none, set anew, and read back; other properties stay', async () => {
    const before = await made();
    expect(propertyOf(before, 'PinsetVersion')).toBeUndefined();
    const first = withProperty(before, 'PinsetVersion', '0.1.0');
    const second = withProperty(withProperty(first, 'Farm & co', '<b>'), 'PinsetVersion', '0.10.2');
    expect(propertyOf(first, 'PinsetVersion')).toBe('0.1.0');
    expect(propertyOf(second, 'PinsetVersion')).toBe('0.10.2');
    expect(propertyOf(second, 'Farm & co')).toBe('<b>');
    const ids = [...textIn(second, 'docProps/custom.xml').matchAll(/pid="(\d+)"/g)].map(([, id]) => id);
    expect(ids).toEqual(['2', '3']);
    expect(readWorkbook(second).sheets[0]!.cells).toEqual([{ address: 'A1', value: 1 }]);
  });

  test('changes nothing else, and nothing at all where it is set already', async () => {
    const before = await made();
    const after = withProperty(before, 'PinsetVersion', '0.1.0');
    const [old, now] = [partsIn(before), partsIn(after)];
    const changed = Object.keys(now).filter(
      (part) => !old[part] || Buffer.compare(old[part], now[part]!) !== 0,
    );
    expect(changed.sort()).toEqual(['[Content_Types].xml', '_rels/.rels', 'docProps/custom.xml']);
    expect(withProperty(after, 'PinsetVersion', '0.1.0')).toBe(after);
  });
});
