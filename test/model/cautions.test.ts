import { describe, expect, it } from 'vitest';
import { CAUTION_RULES, CAUTIONS_REMINDER, type CautionValues, cautions } from '../../src/model/cautions.ts';

/** A rig that raises nothing. */
const CALM: CautionValues = {
  plateFluxDensity: 1.2,
  standoffInsulates: 1,
  insulationMargin: 10,
  visitorField: 0.05e-3,
  publicLevel: 0.2e-3,
  occupationalLevel: 1e-3,
  coilTemperature: 310,
  thermalClass: 403.15,
  coilRunsAway: 0,
  plateTemperature: 310,
  highestVoltage: 40,
  mainsFed: 0,
  floats: 0,
  switchOnLiftOverWeight: 0.5,
  fuseMargin: 1.4,
  packing: 0.75,
  plateIsMagnetic: 0,
  plateOverCoilRadius: 1.2,
  panLiftOverWeight: 0.3,
  panPeakLiftOverWeight: 0.8,
};

/** Per rule: what raises it, and what just does not (NaN aside), beside everything calm. */
const CASES: Record<string, [raises: Partial<CautionValues>, doesNot: Partial<CautionValues>]> = {
  saturation: [{ plateFluxDensity: 1.6 }, { plateFluxDensity: 1.5 }],
  'bare-enamel': [{ standoffInsulates: 0 }, { standoffInsulates: 1 }],
  'insulation-margin': [{ insulationMargin: 1.9 }, { insulationMargin: 2 }],
  'field-public': [{ visitorField: 0.21e-3 }, { visitorField: 0.2e-3 }],
  'field-occupational': [{ visitorField: 1.1e-3 }, { visitorField: 1e-3 }],
  pacemaker: [{ visitorField: 0.11e-3 }, { visitorField: 0.1e-3 }],
  'hot-coil': [{ coilTemperature: 322 }, { coilTemperature: 321 }],
  'hot-plate': [{ plateTemperature: 322 }, { plateTemperature: 321 }],
  'touch-voltage': [{ highestVoltage: 51 }, { highestVoltage: 50 }],
  'not-isolated': [{ mainsFed: 1 }, { mainsFed: 0 }],
  'no-guidance': [{ floats: 1 }, { floats: 0 }],
  'switch-on': [{ switchOnLiftOverWeight: 1.1 }, { switchOnLiftOverWeight: 1 }],
  fuse: [{ fuseMargin: 0.9 }, { fuseMargin: 1 }],
  'thermal-class': [{ coilTemperature: 404 }, { coilTemperature: 403 }],
  runaway: [{ coilRunsAway: 1, coilTemperature: Number.NaN }, { coilRunsAway: 0 }],
  packing: [{ packing: 0.79 }, { packing: 0.78 }],
  'small-magnetic-plate': [{ plateIsMagnetic: 1 }, { plateIsMagnetic: 1, plateOverCoilRadius: 2 }],
  rattles: [{ panPeakLiftOverWeight: 1.1 }, { panPeakLiftOverWeight: 1 }],
  'pan-floats': [{ panLiftOverWeight: 1.1 }, { panLiftOverWeight: 1 }],
};

const raised = (change: Partial<CautionValues>) => cautions({ ...CALM, ...change }).map(({ id }) => id);

describe('cautions', () => {
  it('has a case here for every rule, and names none twice', () => {
    const ids = CAUTION_RULES.map(({ id }) => id);
    expect(Object.keys(CASES).sort()).toEqual([...new Set(ids)].sort());
    expect(new Set(ids).size).toBe(ids.length);
  });

  it.each(Object.entries(CASES))(
    '%s is raised by its case and not at its threshold',
    (id, [raises, doesNot]) => {
      expect(raised(raises)).toContain(id);
      expect(raised(doesNot)).not.toContain(id);
    },
  );

  it('raises nothing for a calm rig, and nothing for values that are not known', () => {
    expect(raised({})).toEqual([]);
    const unknown = Object.fromEntries(Object.keys(CALM).map((key) => [key, Number.NaN]));
    expect(raised(unknown)).toEqual([]);
  });

  it('does not warn of a small plate that is not magnetic', () => {
    expect(raised({ plateOverCoilRadius: 0.5 })).toEqual([]);
  });

  it('carries value, threshold, unit, source and advice', () => {
    const [caution] = cautions({ ...CALM, visitorField: 0.15e-3 });
    expect(caution).toMatchObject({ id: 'pacemaker', value: 0.15e-3, threshold: 0.1e-3 });
    expect(caution?.unit.symbol).toBe('mT');
    for (const rule of CAUTION_RULES) {
      expect(rule.source.length).toBeGreaterThan(10);
      expect(rule.advice.endsWith('.')).toBe(true);
    }
    // a threshold that is itself a value of the design
    const [first] = cautions({ ...CALM, visitorField: 0.09e-3, publicLevel: 0.08e-3 });
    expect(first).toMatchObject({ id: 'field-public', threshold: 0.08e-3 });
  });

  it('closes with who decides', () => {
    expect(CAUTIONS_REMINDER).toMatch(/local codes.*licensed/);
  });
});
