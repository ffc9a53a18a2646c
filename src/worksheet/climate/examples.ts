import type { FaultExample } from '../words';

// Sentences, sources and faults that the words of several functions of the family share.

export const SPORES =
  'Mushroom spores make lungs ill, some for good: fresh air, masks and medical checks where people work among ripe crops.';
export const CO2 =
  'CO2 harms people long before it harms mushrooms. At work in the United States: 5,000 ppm as the mean of a shift (OSHA, ' +
  'NIOSH, ACGIH), 30,000 ppm for 15 minutes (NIOSH, ACGIH); 40,000 ppm is immediately dangerous (NIOSH). Incubation rooms ' +
  'often pass the first: ventilate before going in and hang up an alarm. Local codes decide.';
export const MOULD =
  'Walls and packs below the dew point drip; standing fog breeds bacteria in fog machines and lungs.';

export const ASHRAE = 'ASHRAE Handbook – Fundamentals (2017) chapter 1, computed by PsychroLib 2.5';
export const ISO2533 = 'ISO 2533:1975 Standard Atmosphere';
export const BALANCE = 'ASHRAE Standard 62.1, appendix: mass balance of CO2 in a space';

export const UNITS = 'Unit C takes °C and metres, F takes °F and feet.';
export const HUMIDITY_KEY = 'A blank or 0 humidity gives a blank.';
export const PRODUCTION_NOTES = [
  'Use one unit of volume throughout: m³ an hour with m³, or ft³ an hour with ft³. Multiply the cfm of a fan by 60.',
  'A kilogram of CO2 is 0.54 m³ at 16 °C.',
  'Production is yours to measure: close the room and watch the level rise.',
];

export const airFaults: readonly FaultExample[] = [
  {
    arguments: [16, 85],
    code: '#VALUE!',
    says: 'for 85% write 85% or 0.85',
    remedy: 'Give the humidity as a percentage or as a fraction of 1.',
  },
  {
    arguments: [75, 0.85],
    code: '#VALUE!',
    says: 'temperature must be from -40 to 60 °C; it is 75 °C',
    remedy: 'Give F as the unit where temperatures are in °F.',
  },
];
