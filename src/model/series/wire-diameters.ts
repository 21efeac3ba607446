/**
 * Nominal diameters of enamelled round copper wire, mm, from 0.071 to 5 mm: IEC 60317-0-1 takes the preferred numbers of
 * ISO 3, the series R 20 first and R 40 where an intermediate size is wanted.
 *
 * Source: R 20 as in the table of enamel (`enamel-table.ts`, read on quotations of the standard). R 40 is recalled (from
 * memory); a test holds both against 10^(n/20) and 10^(n/40), from which ISO 3 lets a preferred number differ by 1.3 %.
 */
// biome-ignore format: a table reads better in rows
export const R40_DIAMETERS: readonly number[] = [
  0.071, 0.075, 0.08, 0.085, 0.09, 0.095,
  0.1, 0.106, 0.112, 0.118, 0.125, 0.132, 0.14, 0.15, 0.16, 0.17, 0.18, 0.19,
  0.2, 0.212, 0.224, 0.236, 0.25, 0.265, 0.28, 0.3, 0.315, 0.335, 0.355, 0.375,
  0.4, 0.425, 0.45, 0.475, 0.5, 0.53, 0.56, 0.6, 0.63, 0.67, 0.71, 0.75, 0.8, 0.85, 0.9, 0.95,
  1, 1.06, 1.12, 1.18, 1.25, 1.32, 1.4, 1.5, 1.6, 1.7, 1.8, 1.9,
  2, 2.12, 2.24, 2.36, 2.5, 2.65, 2.8, 3, 3.15, 3.35, 3.55, 3.75,
  4, 4.25, 4.5, 4.75, 5,
];

/** Every second of them. */
export const R20_DIAMETERS: readonly number[] = R40_DIAMETERS.filter((_, i) => i % 2 === 0);
