import { METALS, type Metal, metalByName } from './metals.ts';

/**
 * What else people call the metals of the catalogue: designations of standards (EN 573 for aluminium, EN 1412 and UNS for
 * copper alloys, EN 10027 and AISI for steels) and names of the trade. The pair EN AW-6060, AlMgSi (formerly AlMgSi0.5,
 * 3.3206): seen on a table of designations (aluminium-guide.com); the others from memory.
 */
const ALIASES: Readonly<Record<string, readonly string[]>> = {
  copper: ['Cu', 'Cu-ETP', 'CW004A', 'C11000', 'E-Cu', 'E-Cu58', '2.0065', 'winding copper'],
  aluminium: ['Al', 'EN AW-1350', '1350', 'E-Al', 'winding aluminium'],
  'aluminium-1050': ['EN AW-1050A', '1050A', '1050', 'Al99.5', '3.0255'],
  'aluminium-5083': ['EN AW-5083', '5083', '5083-O', 'AlMg4.5Mn0.7', '3.3547'],
  'aluminium-6060': ['EN AW-6060', '6060', '6060-T6', 'AlMgSi', 'AlMgSi0.5', '3.3206'],
  'aluminium-6061': ['EN AW-6061', '6061', '6061-T6', 'AlMg1SiCu', '3.3211'],
  'aluminium-6082': ['EN AW-6082', '6082', '6082-T6', 'AlSi1MgMn', 'AlMgSi1', '3.2315'],
  brass: ['C26000', 'CuZn30', 'CW505L', 'cartridge brass', 'brass 70/30'],
  'stainless-304': ['1.4301', 'X5CrNi18-10', 'AISI 304', '304', 'S30400'],
  'stainless-430': ['1.4016', 'X6Cr17', 'AISI 430', '430', 'S43000'],
  'mild-steel': ['AISI 1010', 'SAE 1010', '1010', 'low-carbon steel'],
};

/** Case, blanks and hyphens do not matter, nor does the American spelling. */
function plain(name: string): string {
  return name
    .toLowerCase()
    .replace(/[\s_/-]/g, '')
    .replace('aluminum', 'aluminium');
}

const byAlias = new Map(
  METALS.flatMap(({ name }) => [name, ...aliasesOf(name)].map((alias) => [plain(alias), name] as const)),
);

/** What else a metal of the catalogue is called. */
export function aliasesOf(name: string): readonly string[] {
  return ALIASES[name] ?? [];
}

/** Every name that a study may give a metal of the catalogue. */
export const KNOWN_METAL_NAMES: readonly string[] = METALS.flatMap(({ name }) => [name, ...aliasesOf(name)]);

/** The metal of a name of the catalogue or of the trade: `AlMgSi`, `EN AW-6082`, `cu etp`. */
export function metalCalled(text: string): Metal | undefined {
  const key = plain(text).replace(/^enaw(?=\d)/, '');
  return metalByName(byAlias.get(plain(text)) ?? byAlias.get(key) ?? '');
}
