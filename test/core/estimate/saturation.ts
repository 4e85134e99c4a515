/** Temperature of saturated steam from the table in `test/data/science/saturation.csv`, not from the program. */
import { number, reference } from '../science/reference.ts';

const rows = reference('saturation').map(row => [number(row, 'T_C'), number(row, 'p_sat_kPa')] as const);

/** C at an absolute pressure in kPa, straight in its logarithm between the table's whole degrees. */
export function boilsAtC(kPa: number): number {
  const next = rows.findIndex(([, value]) => value >= kPa);
  const [high, highKPa] = rows[next] ?? [Number.NaN, Number.NaN];
  const [low, lowKPa] = rows[next - 1] ?? [Number.NaN, Number.NaN];
  return low + ((high - low) * Math.log(kPa / lowKPa)) / Math.log(highKPa / lowKPa);
}
