import { key, optional, required, type TableColumns } from '../cells/columns';
import { fraction, fractionBelowOne, mass, orNone, price, text } from '../cells/kinds';
import { HEADERS } from '../alsoCalled';

export const recipeColumns = {
  ingredient: key(text(), 'name of the ingredient', 'material', 'raw material', 'item', 'component'),
  share: required(
    fraction(),
    'share of the dry mass',
    'dry share',
    'share of dry matter',
    'proportion',
    'ratio',
    'percent',
  ),
  moisture: required(orNone(fractionBelowOne()), 'water share as received', 'water', ...HEADERS.moisture),
  cost: required(
    price(),
    'price of a unit of mass as received',
    'price',
    'unit cost',
    'unit price',
    'cost per kg',
    'cost per lb',
    'price per kg',
    'price per lb',
  ),
  carbon: optional(orNone(fraction()), 'carbon in the dry mass', 'c', 'carbon content', 'carbon percent'),
  nitrogen: optional(
    orNone(fraction()),
    'nitrogen in the dry mass',
    'n',
    'nitrogen content',
    'nitrogen percent',
    'total nitrogen',
  ),
  protein: optional(orNone(fraction()), 'crude protein in the dry mass', 'crude protein'),
  pack: optional(mass(), 'mass of a bag as bought', 'pack size', 'pack weight', 'bag size', 'bag weight'),
} satisfies TableColumns;
