import { UNITS } from '../units.ts';
import { type CautionRule, PRACTICE, SET } from './caution-rule.ts';

/** C: above it a discharge is taken for dangerous. */
const CHARGE = 45e-6;
const CAPACITOR_SOURCE =
  'IEC 60335-1, 8.1.4: a part that discharges more than 45 µC, at more than 42.4 V peak, counts as live (seen quoted; stated there for 450 V and more, taken here from 42.4 V on)';
const CAPACITOR_ADVICE =
  'Use a capacitor for alternating current, never an electrolytic one, rated for that voltage and current. Fit a fixed discharge resistor that brings it below 75 V in 3 min (IEC 60831-1, seen quoted), with no switch between the two, and measure before touching.';

export const SHOCK_RULES: readonly CautionRule[] = [
  {
    id: 'touch-voltage',
    hazard: 'shock',
    brief: 'more than 50 V ac',
    topic: 'voltage of live parts',
    rule: 'live parts stand at more than 50 V ac',
    value: 'touchVoltage',
    raisedWhen: 'above',
    threshold: 50,
    unit: UNITS.V,
    source: 'IEC 60364-4-41: conventional touch voltage limit, dry, 50 V ac rms (seen quoted at second hand)',
    advice: 'Enclose every live part, joints and capacitors included, so that no finger or tool reaches it.',
  },
  {
    id: 'not-isolated',
    hazard: 'shock',
    brief: 'not isolated from the mains',
    topic: 'isolation from the mains',
    rule: 'a variable transformer does not isolate: the coil is live to earth at any setting',
    value: 'mainsFed',
    raisedWhen: 'above',
    threshold: SET,
    unit: UNITS.one,
    source:
      'one tapped winding joins input and output: IEC 60364-4-41, 411.7.4 treats such an output as part of its input circuit (seen quoted)',
    advice:
      'Have a licensed electrician choose one scheme of protection, and do not mix them. Either earth the plate and all metal within reach, and feed the rig through a residual-current device of 30 mA; or feed it through an isolating transformer, and then earth neither coil nor plate; or keep to SELV from a safety isolating transformer.',
  },
  {
    id: 'separated',
    hazard: 'shock',
    brief: 'a first fault to earth goes unseen',
    topic: 'separation from earth',
    rule: 'behind an isolating transformer no protective device sees a first fault to earth',
    value: 'isolated',
    raisedWhen: 'above',
    threshold: SET,
    unit: UNITS.one,
    source: 'IEC 60364-4-41, 413: electrical separation (from memory; its rules seen quoted at second hand)',
    advice:
      'Have a licensed electrician see to it: earth neither coil nor plate, feed this one rig alone, and measure its insulation to earth regularly: a second fault can kill, and a residual-current device behind the transformer does not see it. The voltage between live parts stays as dangerous as before.',
  },
  {
    id: 'water',
    hazard: 'shock',
    brief: 'water above live parts',
    topic: 'water over live parts',
    rule: 'water stands above live parts of more than 12 V ac',
    value: 'touchVoltage',
    raisedWhen: 'above',
    threshold: 12,
    only: 'loaded',
    unit: UNITS.V,
    source: 'IEC 60364-7-701 and 7-702: SELV of 12 V ac at most where it is wet (seen quoted at second hand)',
    advice:
      'Put a closed, sloped cover between vessel and coil that spilt water runs off, keep terminals and leads above the spill, and earth the vessel where the scheme of protection requires it.',
  },
  {
    id: 'insulation-margin',
    hazard: 'shock',
    brief: 'little insulation to the plate',
    topic: 'insulation to the plate',
    rule: 'little insulation between winding and plate',
    value: 'insulationMargin',
    raisedWhen: 'below',
    threshold: 2,
    unit: UNITS.one,
    source: `test voltages of new wire, IS 13730 / IEC 60317 (seen in a maker’s table); the factor two: ${PRACTICE}`,
    advice:
      'Use a thicker or better standoff, a higher enamel grade, or fewer volts; mind the rise across a series capacitor.',
  },
  {
    id: 'bare-enamel',
    hazard: 'shock',
    brief: 'bare enamel on the plate',
    topic: 'standoff',
    rule: 'the enamelled winding rests on the plate without a named insulator between',
    value: 'standoffInsulates',
    raisedWhen: 'below',
    threshold: SET,
    unit: UNITS.one,
    source: PRACTICE,
    advice:
      'Enamel chafes when the coil chatters. Put a sheet of known dielectric strength between and give its breakdown.',
  },
  {
    id: 'stored-energy',
    hazard: 'shock',
    brief: 'kick at switch-off',
    topic: 'kick at switch-off',
    rule: 'interrupted, the coil draws an arc and kicks with its stored energy',
    value: 'storedEnergy',
    raisedWhen: 'above',
    threshold: 0.25,
    unit: UNITS.J,
    source:
      'a laboratory’s safety note: 0.25 J through a person is a heavy shock, 10 J can kill (seen; stated there for capacitors)',
    advice:
      'Bring the drive to zero before switching off. Switch on the mains side, both poles, with a switch rated for inductive loads; never pull a lead under current. A varistor or a resistor with a capacitor, rated for the mains, across the coil takes the kick.',
  },
  {
    id: 'series-resonance',
    hazard: 'shock',
    brief: 'voltage rise by resonance',
    topic: 'series resonance',
    rule: 'near series resonance coil and capacitor stand far above the supply’s voltage',
    value: 'voltageRise',
    raisedWhen: 'above',
    threshold: 2,
    only: 'hasCapacitor',
    unit: UNITS.one,
    figures: [
      { value: 'resonanceRatio', unit: UNITS.one, phrase: 'resonant at # times the supply’s frequency' },
    ],
    source: `computed: impedance of coil or capacitor over that of the circuit; the factor two: ${PRACTICE}`,
    advice:
      'Choose insulation, capacitor and covers for the risen voltage, not for the supply’s. The resonance moves as the coil rises or the plate is taken away: raise the drive slowly and watch current and voltage.',
  },
  {
    id: 'series-capacitor',
    hazard: 'shock',
    brief: 'charged series capacitor',
    topic: 'charge of the series capacitor',
    rule: 'the series capacitor keeps a dangerous charge after switching off',
    value: 'capacitorCharge',
    raisedWhen: 'above',
    threshold: CHARGE,
    only: 'capacitorHolds',
    unit: UNITS.uC,
    figures: [
      { value: 'capacitorEnergy', unit: UNITS.J, phrase: '#' },
      { value: 'capacitorVoltage', unit: UNITS.V, phrase: '# rms across it' },
    ],
    source: CAPACITOR_SOURCE,
    advice: CAPACITOR_ADVICE,
  },
  {
    id: 'compensating-capacitor',
    hazard: 'shock',
    brief: 'charge of a compensating capacitor',
    topic: 'charge of a compensating capacitor',
    rule: 'a capacitor fitted for power-factor correction would keep a dangerous charge',
    value: 'compensatorCharge',
    raisedWhen: 'above',
    threshold: CHARGE,
    only: 'compensatorHolds',
    unit: UNITS.uC,
    figures: [
      { value: 'compensatorEnergy', unit: UNITS.J, phrase: '#' },
      { value: 'compensatorVoltage', unit: UNITS.V, phrase: '# rms across it' },
    ],
    source: CAPACITOR_SOURCE,
    advice: `If one is fitted: ${CAPACITOR_ADVICE.charAt(0).toLowerCase()}${CAPACITOR_ADVICE.slice(1)} It also takes a surge when switched on, and rings with the coil when the supply is cut.`,
  },
  {
    id: 'bare-live-parts',
    hazard: 'shock',
    brief: 'more than 25 V ac bare',
    topic: 'bare live parts',
    rule: 'live parts of more than 25 V ac may not be bare',
    value: 'touchVoltage',
    raisedWhen: 'above',
    threshold: 25,
    impliedBy: 'touch-voltage',
    unit: UNITS.V,
    source:
      'IEC 60364-4-41, 414.4.5: SELV in dry places up to 25 V ac without covers (seen quoted at second hand)',
    advice:
      'Cover them. Only SELV from a safety isolating transformer may be bare, up to 25 V ac in dry places and 12 V ac in wet ones.',
  },
  {
    id: 'bare-live-parts-wet',
    hazard: 'shock',
    brief: 'more than 12 V ac bare where it is wet',
    topic: 'bare live parts where it is wet',
    rule: 'live parts of more than 12 V ac may not be bare where it is wet',
    value: 'touchVoltage',
    raisedWhen: 'above',
    threshold: 12,
    impliedBy: 'bare-live-parts',
    unit: UNITS.V,
    source:
      'IEC 60364-4-41, 414.4.5: SELV elsewhere up to 12 V ac without covers (seen quoted at second hand)',
    advice:
      'Cover them, or keep the rig dry; only SELV from a safety isolating transformer may be bare at all.',
  },
];
