/** The members of PsychroLib that are used here; the package brings no types. Temperatures °C and pressures Pa in SI. */
declare module 'psychrolib' {
  interface PsychroLib {
    readonly IP: 1;
    readonly SI: 2;
    SetUnitSystem(system: 1 | 2): void;
    GetUnitSystem(): 1 | 2 | undefined;
    GetSatVapPres(dryBulb: number): number;
    GetTDewPointFromVapPres(dryBulb: number, vapourPressure: number): number;
    GetTWetBulbFromHumRatio(dryBulb: number, humidityRatio: number, pressure: number): number;
    GetHumRatioFromTWetBulb(dryBulb: number, wetBulb: number, pressure: number): number;
    GetMoistAirVolume(dryBulb: number, humidityRatio: number, pressure: number): number;
  }
  const psychrolib: PsychroLib;
  export default psychrolib;
}
