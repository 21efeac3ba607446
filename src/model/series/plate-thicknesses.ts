/**
 * Thicknesses of aluminium sheet and plate as stockists list them, mm: common practice, no standard prescribes them
 * (EN 485 gives tolerances for any thickness). 0.5 to 6 mm and 1 to 16 mm: seen on two sellers' pages of common
 * thicknesses (hm-alu.com, 3 gauge sheet; aluminumland.com, plate thickness). 15 mm and from 20 mm on: from memory.
 */
export const PLATE_THICKNESSES: readonly number[] = [
  0.5, 0.6, 0.8, 1, 1.2, 1.5, 2, 2.5, 3, 4, 5, 6, 8, 10, 12, 15, 16, 20, 25, 30, 40, 50,
];
