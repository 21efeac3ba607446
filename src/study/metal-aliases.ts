/**
 * What the trade calls the metals of the catalogue, by the catalogue's names: designations of EN 573 (aluminium), EN 1412
 * (copper), EN 10027 (steel), UNS and AISI, and everyday names. From memory: a hint that names a catalogue metal, whose
 * own values stand in `eddylift metals` with their sources.
 */
const ALIASES: Readonly<Record<string, readonly string[]>> = {
  copper: [
    'cu',
    'cu-etp',
    'etp',
    'e-cu',
    'e-cu58',
    'cw004a',
    'c11000',
    'kupfer',
    'cuivre',
    'enamelled copper',
    'magnet wire',
  ],
  aluminium: ['al', 'alu', 'aluminum', 'e-al', 'al99.7', 'ec aluminium', '1350', 'en aw-1350'],
  'aluminium-1050': [
    '1050',
    '1050a',
    'en aw-1050',
    'en aw-1050a',
    'al99.5',
    '3.0255',
    'aa1050',
    'al 1050',
    'a1050',
  ],
  'aluminium-5083': ['5083', 'en aw-5083', 'almg4.5mn0.7', '3.3547', 'aa5083', 'al 5083'],
  'aluminium-6061': ['6061', '6061-t6', 'en aw-6061', 'almg1sicu', '3.3211', 'aa6061', 'al 6061'],
  'aluminium-6082': ['6082', '6082-t6', 'en aw-6082', 'almgsi1', 'alsi1mgmn', '3.2315', 'aa6082', 'al 6082'],
  brass: ['messing', 'laiton', 'cuzn37', 'cw508l', 'c27200', 'ms63'],
  'stainless-304': ['304', 'aisi 304', '1.4301', 'x5crni18-10', 's30400', 'v2a', '18/10', 'stainless'],
  'stainless-430': ['430', 'aisi 430', '1.4016', 'x6cr17', 's43000', '18/0'],
  'mild-steel': ['steel', 'iron', 'stahl', 'acier', 's235', 's235jr', '1.0038', 'st37', 'st37-2', 'a36'],
};

const BY_ALIAS = new Map(
  Object.entries(ALIASES).flatMap(([name, aliases]) => aliases.map((alias) => [plain(alias), name] as const)),
);

/** The metal of the catalogue that the trade calls so; null where none is known. */
export function metalByAlias(text: string): string | null {
  return BY_ALIAS.get(plain(text)) ?? null;
}

/** Blanks, hyphens and case differ from sheet to sheet. */
function plain(text: string): string {
  return text.toLowerCase().replace(/[\s_-]+/g, '');
}
