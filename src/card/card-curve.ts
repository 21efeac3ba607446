import { FLOATS, SLOT } from '../model/inputs.ts';
import { Q, QUANTITIES, type QuantityName } from '../model/quantities.ts';
import { STATUSES } from '../model/status.ts';
import { toUnit, UNITS } from '../model/units.ts';
import type { DrivenPoint } from '../rig/lift-curve.ts';
import { roundTemperature } from '../text/about-duration.ts';
import { measure, significant } from '../text/significant.ts';
import type { TextColumn } from '../text/text-columns.ts';
import type { BenchCard } from './bench-card.ts';
import { formatHeatTime } from './card-topics.ts';

/** What the table of currents is of. */
export function curveTitle({ end, point, slots }: BenchCard): string {
  const winding = Math.round(toUnit(slots[SLOT.coilTemperature]!, UNITS.degC));
  const until =
    end === 'supply limit' ? 'to the supply limit' : `beyond its drive of ${measure(point.current, UNITS.A)}`;
  return `Raising the drive ${until} (electrical figures for a winding at ${winding} °C)`;
}

/** A row a current; a column that is empty throughout is left out. */
export function curveColumns({ curve, slots }: BenchCard): TextColumn[] {
  const floats = slots[SLOT.floats] !== FLOATS.nothing;
  const own = (name: QuantityName, label: string = QUANTITIES[Q[name]]!.label): TextColumn => {
    const { unit, index } = QUANTITIES[Q[name]]!;
    const cells = curve.map(({ results }) => significant(toUnit(results[index]!, unit)));
    return { label, unit: unit.symbol, kind: 'number', cells };
  };
  const isTimed = !Number.isNaN(slots[SLOT.thermalClass]!);
  return [
    own('current'),
    ...(floats ? [stateColumn(curve), own('height')] : []),
    own('supply_voltage', 'voltage'),
    own('coil_loss'),
    own('plate_loss'),
    coilColumn(curve, 'coil_temperature', 'coil mean'),
    coilColumn(curve, 'coil_hot_spot', 'hottest'),
    ...(isTimed ? [timeColumn(curve, 'coil_on_time', 'on-time about', 'no limit')] : []),
    ...(floats ? [] : [timeColumn(curve, 'load_heating_time', 'load warm', 'never')]),
  ].filter(({ cells }) => cells.some((cell) => cell !== '-'));
}

/** Between chatter and lift-off the peaks of the force already exceed the weight. */
function stateColumn(curve: readonly DrivenPoint[]): TextColumn {
  const cells = curve.map(({ status, current, results }) => {
    if (STATUSES[status] === 'lifts') return 'floats';
    return current > results[Q.chatter_current]! ? 'chatters' : STATUSES[status]!;
  });
  return { label: '', unit: '', kind: 'text', cells };
}

/** Steady, the mean of the winding or its hottest place. */
function coilColumn(
  curve: readonly DrivenPoint[],
  name: 'coil_temperature' | 'coil_hot_spot',
  label: string,
): TextColumn {
  const cells = curve.map(({ results }) => {
    const steady = results[Q[name]]!;
    return Number.isNaN(steady) ? 'rising' : String(roundTemperature(toUnit(steady, UNITS.degC)));
  });
  return { label, unit: '°C', kind: 'text', cells };
}

function timeColumn(
  curve: readonly DrivenPoint[],
  name: QuantityName,
  label: string,
  endless: string,
): TextColumn {
  const cells = curve.map(({ results }) => {
    const time = results[Q[name]]!;
    // the heading states that times are about so long
    return Number.isNaN(time) ? '-' : formatHeatTime(time, endless).replace(/^about /, '');
  });
  return { label, unit: '', kind: 'text', cells };
}
