import { metalByName } from './metals.ts';

/** What a metal that is known by its conductivity alone takes the rest of its numbers from. */
const TYPICAL = {
  aluminium: 'aluminium',
  copper: 'copper',
  brass: 'brass',
  'stainless steel': 'stainless-304',
  steel: 'mild-steel',
} as const;

export type Family = keyof typeof TYPICAL;
export const FAMILIES = Object.freeze(Object.keys(TYPICAL) as Family[]);

export interface FamilyNumbers {
  readonly temperatureCoefficient: number;
  readonly density: number;
  readonly specificHeat: number;
  readonly relativePermeability: number;
  /** NaN where it does not saturate. */
  readonly saturation: number;
}

/**
 * Usual numbers of a family, SI, for a metal of this resistivity at 20 degC: those of its member in the catalogue. The
 * temperature coefficient follows from Matthiessen's rule: alloying moves a resistivity, but not its rise per kelvin.
 * Densities and specific heats of a family's alloys lie within about 3 % of it (from memory), copper and brass apart.
 */
export function familyNumbers(family: Family, resistivity: number): FamilyNumbers {
  const metal = metalByName(TYPICAL[family])!;
  const slope = metal.resistivity.value * metal.temperatureCoefficient.value;
  return {
    temperatureCoefficient: Number((slope / resistivity).toPrecision(3)),
    density: metal.density.value,
    specificHeat: metal.specificHeat.value,
    relativePermeability: metal.relativePermeability.value,
    saturation: metal.saturation?.value ?? Number.NaN,
  };
}
