/** What tables call the quantities that are measured most, in small letters without accents. */
const WORDS: readonly (readonly [name: string, unit: string, words: readonly string[]])[] = [
  [
    'height',
    'mm',
    [
      'height',
      'float height',
      'hohe',
      'hoehe',
      'schwebehohe',
      'schwebehoehe',
      'hauteur',
      'altura',
      'altezza',
      'h',
    ],
  ],
  ['gap', 'mm', ['abstand', 'spalt', 'luftspalt', 'entrefer', 'air gap', 'airgap', 'distance']],
  [
    'current',
    'A',
    [
      'current',
      'strom',
      'spulenstrom',
      'courant',
      'corriente',
      'corrente',
      'i',
      'irms',
      'i rms',
      'ieff',
      'amps',
    ],
  ],
  [
    'voltage',
    'V',
    [
      'voltage',
      'spannung',
      'spulenspannung',
      'tension',
      'voltaje',
      'u',
      'v',
      'vrms',
      'urms',
      'u rms',
      'ueff',
      'volts',
    ],
  ],
  ['power', 'W', ['power', 'leistung', 'wirkleistung', 'puissance', 'potencia', 'p', 'watts']],
  ['power_factor', '', ['leistungsfaktor', 'cos phi', 'cosphi', 'cos φ', 'pf', 'facteur de puissance']],
  ['supply_frequency', 'Hz', ['frequency', 'frequenz', 'frequence', 'f']],
  ['inductance', 'mH', ['inductance', 'induktivitat', 'induktivitaet', 'l']],
  [
    'coil_temperature',
    'degC',
    ['temperature', 'temperatur', 'spulentemperatur', 'coil temperature', 't', 'temp'],
  ],
];

/**
 * The column that a foreign name most likely means, such as `height_mm` for `Höhe (mm)`; null where nothing is likely.
 * @param isKnown whether a name is a column
 */
export function guessColumn(text: string, isKnown: (name: string) => boolean): string | null {
  const [, word = '', unit = ''] = /^\s*([^([/\]]+?)\s*(?:[([/]\s*([^)\]]*?)\s*[)\]]?)?\s*$/.exec(text) ?? [];
  const plain = word
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .replace(/[_\s]+/g, ' ')
    .trim();
  for (const [name, usual, words] of WORDS) {
    if (words.includes(plain)) {
      const own = unit === '' ? usual : unit.replace('°C', 'degC').replaceAll('/', '_per_');
      const candidates = [`${name}_${own}`, `${name}_${usual}`, name].map((each) => each.replace(/_$/, ''));
      return candidates.find(isKnown) ?? null;
    }
    // `Strom mA`: the unit as the last word
    const [, front = '', end = ''] = /^(.*\S)\s+(\S+)$/.exec(plain) ?? [];
    if (words.includes(front)) {
      const column = `${name}_${word.trim().slice(-end.length)}`;
      if (isKnown(column)) return column;
    }
  }
  return null;
}
