/**
 * Conversions for the edge: inside the program pressures are kPa, temperatures C, masses kg, volumes L and
 * lengths m. All factors are exact by the international pound, inch and US gallon; both directions use
 * the same factor, so a value typed and shown again is the value typed. Valid for every finite number.
 */

/** 1 lbf/in2 in kPa: 0.45359237 kg x 9.80665 m/s2 / (0.0254 m)^2, to double precision. */
export const KPA_PER_PSI = 6.894757293168361;
export const KPA_PER_BAR = 100;
/** Avoirdupois pound, exact. */
export const KG_PER_LB = 0.45359237;
/** US liquid quart (231 in3 / 4), exact. */
export const L_PER_QT = 0.946352946;
/** International inch, exact. */
export const M_PER_IN = 0.0254;
/** International foot, exact. */
export const M_PER_FT = 0.3048;
/** US bushel (2150.42 in3), exact; test weights of grain are quoted in lb per bushel. */
export const L_PER_BUSHEL = 35.23907016688;

export const psiToKPa = (psi: number): number => psi * KPA_PER_PSI;
export const kPaToPsi = (kPa: number): number => kPa / KPA_PER_PSI;
export const barToKPa = (bar: number): number => bar * KPA_PER_BAR;
export const kPaToBar = (kPa: number): number => kPa / KPA_PER_BAR;

export const celsiusToFahrenheit = (celsius: number): number => celsius * 1.8 + 32;
export const fahrenheitToCelsius = (fahrenheit: number): number => (fahrenheit - 32) / 1.8;

export const lbToKg = (lb: number): number => lb * KG_PER_LB;
export const kgToLb = (kg: number): number => kg / KG_PER_LB;

export const qtToL = (qt: number): number => qt * L_PER_QT;
export const lToQt = (litres: number): number => litres / L_PER_QT;

export const inToM = (inches: number): number => inches * M_PER_IN;
export const mToIn = (metres: number): number => metres / M_PER_IN;
export const ftToM = (feet: number): number => feet * M_PER_FT;
export const mToFt = (metres: number): number => metres / M_PER_FT;

/** Test weight in lb per US bushel to bulk density in kg/m3. */
export const lbPerBushelToKgM3 = (lbPerBushel: number): number =>
  (lbPerBushel * KG_PER_LB * 1000) / L_PER_BUSHEL;
