import type { Words } from '../words';
import { ASHRAE, CO2, MOULD } from './examples';

export const words: Words = {
  summary: 'Water an hour that outside air needs to come to the humidity of the room.',
  notes: [
    'Kilograms an hour for an airflow in m³/h. With unit F it is pounds an hour for an airflow in ft³/h, and altitude is in feet.',
    'Airflow is per hour, as FRESHAIR gives it. Multiply the cfm of a fan by 60.',
    'The airflow is taken as measured at the temperature and humidity of the room. Measured in cold outside air, the same figure carries more air: 5% more at 5 °C than at 16 °C.',
    'Take off what the crop evaporates. A figure below 0 means that the outside air brings more water than the room holds.',
    'Each kilogram evaporated cools the air by 2,500 kJ, which heating must give back.',
    'A blank or 0 airflow gives a blank.',
  ],
  cautions: [MOULD, CO2],
  sources: [
    ASHRAE,
    'ASHRAE Handbook – HVAC Systems and Equipment, chapter on humidifiers: load from ventilation air',
  ],
  questions: ['humidifier size', 'fogger', 'misting', 'how much to humidify'],
  examples: [
    {
      title: '500 m³/h from 5 °C at 80%, and from 25 °C at 80%, to 16 °C at 90%',
      arguments: [500, [[5], [25]], 0.8, 16, 0.9],
      gives: [[3.5411053083929], [-3.4539086065745]],
    },
    {
      title: '18,000 ft³ an hour (300 cfm) from 41 °F at 80% to 61 °F at 90%, in pounds',
      arguments: [18000, 41, 0.8, 61, 0.9, null, 'F'],
      gives: 8.0540392034544,
    },
  ],
  faults: [
    {
      arguments: [500, 5, 80, 16, 0.9],
      code: '#VALUE!',
      says: 'outside humidity must be a percentage above 0% and at most 100%; it is 80 – for 80% write 80% or 0.8',
      remedy: 'Give the humidity as a percentage or as a fraction of 1.',
    },
  ],
};
