/** The few functions of the npm package psychrolib that the checks use; it ships no types. */
declare module 'psychrolib' {
  interface Psychrolib {
    readonly SI: number;
    SetUnitSystem(system: number): void;
    /** Saturation pressure over water, Pa, of a temperature in C. */
    GetSatVapPres(celsius: number): number;
    /** Pressure of the standard atmosphere, Pa, at a height in m. */
    GetStandardAtmPressure(altitudeM: number): number;
  }
  const psychrolib: Psychrolib;
  export = psychrolib;
}
