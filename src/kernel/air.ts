/** Properties of dry air at a temperature and one atmosphere. */
export interface Air {
  /** W/(m K). */
  conductivity: number;
  /** g beta / (nu alpha) without g: 1 / (T nu alpha), s2/(K m4); times g, temperature difference and L^3: Ra. */
  buoyancy: number;
  prandtl: number;
}

/**
 * Dry air at 101.325 kPa as an ideal gas (beta = 1/T). Temperature in K, 100 to 2000.
 *
 *   viscosity mu = 1.458e-6 T^1.5 / (T + 110.4), conductivity k = 2.64638e-3 T^1.5 / (T + 245.4 x 10^(-12/T)),
 *   density 101325 / (287.053 T), specific heat 287.053 (3.653 - 1.337e-3 T + 3.294e-6 T^2 - 1.913e-9 T^3
 *   + 0.2763e-12 T^4), held at its value of 1000 K above
 *
 * Accuracy: within 2 % of tabulated conductivity and viscosity from 250 to 700 K, Pr within 0.02 (tests).
 * Source: U.S. Standard Atmosphere, 1976, eqs. (51), (53); M. J. Moran and H. N. Shapiro, Fundamentals of
 * Engineering Thermodynamics, table A-21 (both from memory).
 */
export function airProperties(temperature: number, out: Air): void {
  const T = temperature;
  const root = T * Math.sqrt(T);
  const viscosity = (1.458e-6 * root) / (T + 110.4);
  const conductivity = (2.64638e-3 * root) / (T + 245.4 * 10 ** (-12 / T));
  const density = 101325 / (GAS * T);
  const t = Math.min(T, 1000);
  const heat = GAS * (3.653 + t * (-1.337e-3 + t * (3.294e-6 + t * (-1.913e-9 + t * 0.2763e-12))));
  const prandtl = (viscosity * heat) / conductivity;
  const kinematic = viscosity / density;
  out.conductivity = conductivity;
  out.buoyancy = prandtl / (T * kinematic * kinematic);
  out.prandtl = prandtl;
}

/** Gas constant of dry air, J/(kg K). */
const GAS = 287.053;
