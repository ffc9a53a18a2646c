import { amount, date, datedIn, label, mixed, namedIn, percent, sometimes, views } from '../cells/results';

/** What a loading plan can be asked for. The first is what LOADPLAN gives if nothing is said. */
export const PLAN_VIEWS = {
  plan: 'what to load when, in which room',
  picks: 'what will be picked each day',
  orders: 'how far each order is filled, and why one falls short',
  lots: 'what is left of each lot',
  summary: 'the plan in a few figures',
  week: 'what the crew does on each day of the first week',
  worth: 'what more shelves, picking or blocks would be worth, and what not knowing costs',
  board: 'blocks on the shelves of each room on each day, and places free',
};
export type PlanViewName = keyof typeof PLAN_VIEWS;

export const planViews = {
  plan: {
    loaded: date(),
    lot: label(),
    strain: label(),
    room: label(),
    blocks: amount(),
    age: amount('days since inoculation'),
    'first pick': date(),
    'block mass': amount(),
    moisture: percent(),
    product: label(),
    for: label('the orders it fills, with the mass for each, and what is spare'),
  },
  picks: {
    date: date(),
    expected: amount('fresh mass'),
    'from standing': amount('of it, from what is on the shelves now'),
    'from plan': amount('of it, from the plan'),
    limit: mixed('or none'),
    spare: amount(),
    'one in ten': sometimes(amount('mass that one day in ten exceeds')),
    strain: namedIn(amount()),
  },
  orders: {
    product: label(),
    from: date(),
    due: date(),
    mass: amount(),
    given: sometimes(amount('mass it has already')),
    planned: amount('mass that the plan fills'),
    short: amount(),
    surplus: amount('mass picked for it that no order takes'),
    chance: sometimes(percent('share of the possible seasons that fill it')),
    cause: label(),
    'what would close it': label(),
  },
  lots: {
    lot: label(),
    strain: label(),
    blocks: amount(),
    loaded: amount(),
    waiting: amount('left, and still good after the last day of the plan'),
    'going over age': amount(),
    expires: date('last day the lot may be opened'),
  },
  summary: { what: label(), value: mixed(), note: label() },
  week: {
    day: date(),
    weekday: label(),
    job: label('open, pick or look at'),
    lot: label(),
    strain: label(),
    room: label(),
    blocks: amount(),
    mass: amount('fresh mass to be picked'),
    note: label(),
  },
  worth: { what: label(), worth: amount('money, over the plan'), note: label() },
  board: {
    what: label('on shelves or free'),
    room: label(),
    places: amount(),
    day: datedIn(mixed('blocks or places; closed while the room is shut')),
  },
};

export const planResult = views(planViews);
