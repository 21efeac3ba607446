/** A study whose every text is `bait`: title, notes and the name of a metal. Designs of it float. */
export function hostileStudy(bait: string): string {
  return `
study: ${JSON.stringify(bait)}
notes: ${JSON.stringify(`${bait}\n\n${bait}`)}
rig:
  floats: coil
  coil: {metal: copper, wire: 2 mm, insulation: grade 2, turns: 440, layers: 8, inner_radius: 50 mm}
  plate: {metal: aluminium-1050, thickness: 12 mm}
  standoff: 2 mm
  supply: {frequency: 50 Hz}
drive: {current: 14 A}
vary:
  coil.metal:
    - aluminium
    - {name: ${JSON.stringify(bait)}, resistivity: 2.9e-8 ohm m, temperature_coefficient: 0.004 1/K, density: 2700 kg/m^3, specific_heat: 900 J/(kg K)}
  coil.turns: {from: 300, to: 500, step: 20}
limits: [height >= 1 mm, current_density <= 5 A/mm^2]
objectives: [{maximise: height}, {minimise: coil_mass}]
plan: {grid: {}}
`;
}
