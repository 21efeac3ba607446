/**
 * How thick must the plate be? Computes one rig over plates of two metals and many thicknesses, without a study that
 * varies them, and prints a table.
 *
 *   node examples/plate-thickness.js
 */
import { evaluate, readStudy } from 'eddylift';

const study = await readStudy({
  text: `
study: A coil over plates of any thickness
rig:
  floats: coil
  coil: {metal: aluminium, wire: 2.0 mm, insulation: grade 2, turns: 440, layers: 8, inner_radius: 50 mm, extra_mass: 150 g}
  plate: {metal: aluminium-1050, thickness: 12 mm}
  standoff: 2 mm
  supply: {frequency: 50 Hz}
drive: {current: 12 A}
`,
});

console.log('thickness      aluminium      copper');
for (const thickness of [1, 2, 3, 4, 6, 8, 10, 12]) {
  const heights = ['aluminium-1050', 'copper'].map((metal) => {
    const design = evaluate(study, { 'plate.metal': metal, 'plate.thickness': `${thickness} mm` });
    return design.status === 'lifts' ? `${design.height_mm.toFixed(1)} mm` : String(design.status);
  });
  console.log(`${String(thickness).padStart(6)} mm ${heights.map((text) => text.padStart(14)).join('')}`);
}
