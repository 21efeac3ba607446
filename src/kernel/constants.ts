/** Magnetic constant, H/m. The contract's value 4 pi 1e-7; CODATA 2018 differs by 5e-10 relative. */
export const MU0 = 4e-7 * Math.PI;

/** Standard acceleration of gravity, m/s2 (CGPM 1901, resolution 2). */
export const GRAVITY = 9.80665;

/** 0 degC in K. */
export const ZERO_CELSIUS = 273.15;

/** Reference temperature of resistivities, 20 degC in K (IEC 60028). */
export const REFERENCE_TEMPERATURE = 293.15;
