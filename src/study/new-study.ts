/** The answers for a new study, as written. */
export interface Answers {
  readonly floats: string;
  readonly supply: string;
  readonly wire: string;
  readonly plate: string;
}

export const DEFAULT_ANSWERS: Answers = Object.freeze({
  floats: 'coil',
  supply: '230 V 50 Hz 16 A',
  wire: 'aluminium 2 mm',
  plate: 'aluminium-1050 12 mm',
});

export const QUESTIONS: readonly { readonly key: keyof Answers; readonly question: string }[] = Object.freeze(
  [
    { key: 'floats', question: 'What floats: coil, plate, or nothing (a coil that heats a pan)?' },
    { key: 'supply', question: 'Which supply: voltage, frequency, fuse?' },
    { key: 'wire', question: 'Which wire: metal and bare diameter?' },
    { key: 'plate', question: 'Which plate: metal and thickness?' },
  ],
);

/** A winding, a standoff and a radius of the plate that suit what floats. */
const RIGS: Readonly<Record<string, { coil: string; standoff: string; plate: string; drive: string }>> = {
  coil: {
    coil: 'turns: 440\n    layers: 8',
    standoff: '2 mm',
    plate: 'radius: 350 mm',
    drive: 'supply limit',
  },
  plate: {
    coil: 'turns: 440\n    layers: 8',
    standoff: '2 mm',
    plate: 'radius: 170 mm',
    drive: 'supply limit',
  },
  nothing: {
    coil: 'turns: 440\n    layers: 8',
    standoff: '4 mm',
    plate: 'radius: 170 mm',
    drive: '{current: 10 A}',
  },
};

/** One rig, commented, and what may be added to it as comments that work when their `#` is taken away. */
export function newStudyText(answers: Answers, schema: string | null): string {
  const { coil, standoff, plate, drive } = RIGS[answers.floats] ?? RIGS.coil!;
  const [wireMetal, wire] = metalAndSize(answers.wire);
  const [plateMetal, thickness] = metalAndSize(answers.plate);
  const { voltage, frequency, fuse } = supplyOf(answers.supply);
  const wanted = answers.floats === 'nothing' ? 'plate_loss' : 'height';
  return `${schema === null ? '' : `# yaml-language-server: $schema=${schema}\n`}# A coil over a plate. Change what is not yours, then: eddylift card THIS_FILE
# A value with a unit is read in it (2 mm, 0.25 in, 150 g); a plain number is in SI units (m, kg, A, V, Hz).
study: What does my coil do?
rig:
  floats: ${answers.floats}                  # coil, plate, or nothing: clamped at the standoff, as under a pan
  coil:
    metal: ${wireMetal}            # eddylift metals lists them
    wire: ${wire}                 # bare diameter, or 'AWG 12'
    insulation: grade 2        # enamel: grade 1, 2 or 3 (IEC 60317-0-1), or its thickness on one side
    thermal_class: 130 degC    # what the enamel stands (IEC 60085)
    ${coil}
    inner_radius: 50 mm
    extra_mass: 150 g          # former, ties, leads
  plate:
    metal: ${plateMetal}
    thickness: ${thickness}
    ${plate}             # or square: 400 mm, or sides: [400 mm, 300 mm]
  standoff: ${standoff}               # gap at rest between winding and plate
  supply:
    frequency: ${frequency}
    line_voltage: ${voltage}
    max_voltage: ${voltage}       # of the variable transformer
    max_current: ${fuse}
    fuse: ${fuse}
  surroundings: {temperature: 20 degC, visitor_distance: 0.6 m}
drive: ${drive}            # as far as the supply allows; or {current: 12 A}, or {voltage: 96 V}

# To compare designs, take the '# ' away from the lines below, then: eddylift run THIS_FILE
# vary:
#   coil.turns: {from: 320, to: 520, step: 40}
#   coil.layers: [6, 8, 10]
# limits: [current <= ${fuse}, coil_mass <= 4 kg]
# objectives: [{maximise: ${wanted}}, {minimise: coil_mass}]
`;
}

/** `aluminium 2 mm`: what comes before the first number is the metal; a metal's own number stands in its name. */
function metalAndSize(text: string): [metal: string, size: string] {
  const [, metal = '', size = ''] = /^\s*(\S*[a-z]\S*)[\s,]+(.*)$/i.exec(text) ?? [];
  // as it is, so that its reader reports what is wrong with it
  return metal === '' || /^awg$/i.test(metal) ? [yaml(text.trim()), '1'] : [yaml(metal), yaml(size.trim())];
}

function supplyOf(text: string): { voltage: string; frequency: string; fuse: string } {
  const part = (unit: string, otherwise: string) =>
    new RegExp(`([\\d.]+)\\s*${unit}(?![a-z])`, 'i').exec(text)?.[0] ?? otherwise;
  const isRead = /\d/.test(text);
  return {
    voltage: isRead ? part('V', '230 V') : yaml(text.trim()),
    frequency: part('Hz', '50 Hz'),
    fuse: part('A', '16 A'),
  };
}

/** A text that YAML reads as it is. */
function yaml(text: string): string {
  return /^[\w./ -]+$/.test(text) ? text : JSON.stringify(text);
}
