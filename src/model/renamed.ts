/** What went by another name in an earlier version: quantities and functions of expressions, plans. Old names are refused with the new one. */
export const RENAMED: ReadonlyMap<string, string> = new Map([
  ['buzz_current', 'chatter_current'],
  ['bounce_frequency', 'natural_frequency'],
  ['unity_capacitance', 'pf_correction_capacitance'],
  ['unity_capacitor_voltage', 'pf_correction_capacitor_voltage'],
  ['unity_current', 'pf_correction_current'],
  ['chance', 'probability'],
  ['chance_lifts', 'probability_lifts'],
  ['chance_limits', 'probability_limits'],
  ['scatter', 'sobol'],
  ['descend', 'nelder_mead'],
  ['evolve', 'genetic'],
]);
