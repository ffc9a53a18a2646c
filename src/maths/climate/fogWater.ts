import { ambientPressure } from '../shared/ambientPressure';
import { requireAtLeast } from '../shared/checks';
import { requireAir, volumeOfDryKilogram, waterToDryAir, type Air } from './moistAir';

/**
 * Water that outside air must be given an hour to come to the humidity of the room.
 *
 * water = airflow / v × (W room − W outside): v is the volume of room air to a kilogram of dry air, W the humidity
 * ratio. What blocks and mushrooms evaporate themselves comes off it. Below 0 the outside air brings more water than
 * the room holds: it must then be taken out of the air.
 *
 * @param airflow cubic metres an hour at the state of the room, 0 or more
 * @param outside air outside, -40 to 60 °C
 * @param room air to hold in the room, -40 to 60 °C
 * @param altitudeM metres above sea level
 * @returns kilograms an hour
 * @throws invalid where an input is outside its range
 * @source ASHRAE Handbook – HVAC Systems and Equipment, chapter on humidifiers: load from ventilation air
 */
export function fogWater(airflow: number, outside: Air, room: Air, altitudeM: number): number {
  requireAtLeast('airflow', airflow, 0);
  requireAir(outside, 'outside temperature', 'outside humidity');
  requireAir(room, 'room temperature', 'room humidity');
  const pressure = ambientPressure(altitudeM);
  return (
    (airflow / volumeOfDryKilogram(room, pressure)) *
    (waterToDryAir(room, pressure) - waterToDryAir(outside, pressure))
  );
}
