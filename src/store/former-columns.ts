/**
 * Columns of parts that bore another name in earlier results: today's name, and those before it. A quantity that is
 * renamed gets a line here, so that results of before keep its figures; one that means something else gets none.
 */
export const FORMER_COLUMNS: Readonly<Record<string, readonly string[]>> = Object.freeze({
  chatter_current: ['buzz_current'],
  natural_frequency: ['bounce_frequency'],
  pf_correction_capacitance: ['unity_capacitance'],
  pf_correction_capacitor_voltage: ['unity_capacitor_voltage'],
  pf_correction_voltage: ['unity_capacitor_voltage'],
  pf_correction_current: ['unity_current'],
});
