import { GRAVITY } from '../kernel/constants.ts';
import { humLevel } from '../kernel/hum-level.ts';
import { FLOATS, SLOT } from '../model/inputs.ts';
import { Q } from '../model/quantities.ts';
import { STATUS } from '../model/status.ts';
import type { RigState } from './state.ts';

/** What a rig sets free when it is switched off or fails, how near it is to resonance, and how loud it hums. */
export function computeReleases(rig: RigState): void {
  const { slots, results, current, omega, reactance } = rig;
  // the peak of L i^2 / 2 is L times the rms current squared; so with the capacitor
  results[Q.stored_energy] = (reactance / omega) * current * current;
  const capacitance = slots[SLOT.seriesCapacitance]!;
  if (!Number.isNaN(capacitance)) {
    const across = results[Q.capacitor_voltage]!;
    results[Q.capacitor_energy] = capacitance * across * across;
    results[Q.resonance_ratio] = 1 / Math.sqrt(omega * reactance * capacitance);
    results[Q.voltage_rise] = Math.max(results[Q.voltage]!, across) / results[Q.supply_voltage]!;
  }
  if (rig.floats) results[Q.fall_energy] = rig.mass * GRAVITY * results[Q.height]!;
  const vibration = results[Q.vibration]!;
  if (rig.status === STATUS.lifts && vibration > 0) {
    const radius = rig.floating === FLOATS.plate ? slots[SLOT.plateRadius]! : rig.coil.outerRadius;
    results[Q.hum_level] = humLevel(vibration, radius, omega / Math.PI);
  }
}
