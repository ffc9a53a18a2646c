import { key, optional, optionalOr, required, type TableColumns } from '../cells/columns';
import { days, number, orZero, serial, text } from '../cells/kinds';
import {} from '../tables';
import { dayLimit, MOST, planMass, settingValue, weekdayOrDate } from './kinds';

// What is asked of a plan: orders, what a day allows, settings.

export const orderColumns = {
  product: key(
    text(),
    'a product, a strain, or any for whatever is picked',
    'item',
    'ordered',
    'product name',
    'mushroom',
    'strain',
    'variety',
    'species',
  ),
  mass: required(
    planMass(),
    'fresh mass ordered',
    'weight',
    'quantity',
    'kg',
    'kgs',
    'kilos',
    'lb',
    'lbs',
    'pounds',
    'qty ordered',
    'order qty',
    'weight ordered',
    'order weight',
  ),
  due: required(
    serial(),
    'last day whose picking can fill the order',
    'due date',
    'due by',
    'delivery',
    'delivery date',
    'deliver by',
    'deliver on',
    'ship date',
    'needed by',
    'wanted by',
    'required by',
  ),
  from: optional(
    serial(),
    'first day whose picking can fill it; the seven days up to due if blank',
    'from date',
    'pick from',
    'earliest',
    'not before',
  ),
  'keep days': optional(
    days({ above: 0, to: 366 }),
    'days that a picking keeps, where from is blank',
    'keeps',
    'keeps days',
    'shelf life',
  ),
  given: optionalOr(
    orZero(planMass()),
    0,
    'fresh mass it has already, from the cold store or delivered; 0 if left out',
    'in store',
    'in stock',
    'on hand',
    'delivered',
  ),
  price: optionalOr(
    number({ above: 0, to: MOST }),
    1,
    'price of a unit of mass; 1 if left out',
    'unit price',
    'price per kg',
    'price per lb',
  ),
} satisfies TableColumns;

export const calendarColumns = {
  day: key(
    weekdayOrDate(),
    'a date, a day of the week, weekend, work days or every day: the first of these that fits counts',
    'date',
    'weekday',
    'day of week',
  ),
  'pick limit': required(
    dayLimit('mass'),
    'fresh mass that can be picked on that day',
    'max pick',
    'pick capacity',
    'harvest limit',
    'max harvest',
    'harvest capacity',
  ),
  'load limit': required(
    dayLimit('count'),
    'blocks that can be loaded on that day',
    'max load',
    'load capacity',
    'max blocks',
    'blocks per day',
  ),
} satisfies TableColumns;

export const settingColumns = {
  name: key(text(), 'name of the setting', 'setting', 'option'),
  value: required(settingValue(), 'its value; none for 0. Leave the row out for the usual one'),
} satisfies TableColumns;
