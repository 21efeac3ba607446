/** How a winding's wires are held: what fills the room between them. */
const WINDING_KIND = Object.freeze({ loose: 0, impregnated: 1 });

/**
 * Conductivity of what lies between the conductors, W/(m K). Varnish or resin: 0.2 to 0.25 (makers' data, from
 * memory). Loose enamelled wire: enamel, air and narrow contacts together; 0.07 is a judgement, chosen so that wires
 * laid in square order (fill 0.7) come to 0.4, the middle of the 0.3 to 0.5 that practice quotes (no source).
 */
const BETWEEN = [0.07, 0.22] as const;

/** Loose wires that just touch conduct no better than this, W/(m K): a unit cell of touching enamelled circles. */
const TOUCHING = 0.75;

/**
 * Conductivity across a winding's section, W/(m K): circles that conduct perfectly in a matrix,
 *   k = km (1 + f) / (1 - f),
 * f: conductor area over section area (space factor).
 * Impregnated: 1.2 to 1.6 at usual fill. Accuracy: loose, a factor of 1.5 either way; impregnated, a fifth.
 * Source: Rayleigh, Phil. Mag. 34 (1892) 481, to first order (also Z. Hashin and S. Shtrikman, J. Appl. Phys. 33 (1962)
 * 3125, as the lower bound for cylinders; both from memory).
 */
export function windingConductivity(kind: number, spaceFactor: number): number {
  const fill = Math.min(spaceFactor, FULLEST);
  const between = kind === WINDING_KIND.impregnated ? BETWEEN[1] : BETWEEN[0];
  const mixed = (between * (1 + fill)) / (1 - fill);
  return kind === WINDING_KIND.impregnated ? mixed : Math.min(mixed, TOUCHING);
}

/** Circles fill no more. */
const FULLEST = 0.9;
