// What lists and calendars of ripe lots, logs of temperatures and records of ready lots are worked out with: loaded once a
// sheet asks for one.

export { ripeningProgress } from '../../maths/ripening/ripeningProgress';
export { strainWaits } from '../../maths/ripening/strainWaits';
export { calendarRows } from './calendarRows';
export { readyRows } from './readyRows';
