import { implantLevel, occupationalLevel, publicLevel } from '../../src/kernel/exposure.ts';
import { type CautionRule, SET } from '../../src/model/cautions/caution-rule.ts';
import { CAUTION_VALUES } from '../../src/model/cautions/caution-values.ts';
import { byHazard, CAUTION_RULES, CAUTIONS_REMINDER } from '../../src/model/cautions/judge.ts';
import { cautionsOf } from '../../src/rig/cautions-of.ts';
import { atOwnDrive } from '../../src/rig/lift-curve.ts';
import { measure } from '../../src/text/significant.ts';
import { type Design, FOYER, SOCKET, slotsOf } from './design.ts';

const HEAD = `# Cautions

<!-- Generated from the registry of cautions: \`npx vitest run test/cautions-page.test.ts --update\` writes it anew. -->

Every design that an answer names, every bench card and every report comes with cautions: what can hurt somebody or break
something, what to do, and who says so. A caution is one of three things:

- **raised**: the value lies beyond the threshold;
- **clear**: it does not, or the caution does not apply to such a rig; a clear caution is not shown;
- **not judged**: an input is missing. It is shown, with what is missing. Where a part of the answer is known and that part
  alone lies beyond the threshold, the caution is raised and says "at least". Of a design without an answer nothing is
  judged.

The worst comes first, electric shock before all else. A caution that a graver one implies is left out. Cautions block no
calculation. ${CAUTIONS_REMINDER}

"Seen" means that somebody who wrote this read the value where it is quoted, hardly ever in the standard itself; "from
memory" means that nobody looked it up. Standards are revised and countries differ: look up what binds you.

Live parts, and how they are protected, are a matter for a licensed electrician, who chooses **one** scheme and does not mix
it with another: (1) automatic disconnection: plate and all metal within reach are earthed, a residual-current device
of 30 mA switches off; (2) separation: an isolating transformer feeds this rig alone, and neither coil nor plate is
earthed; (3) safety extra-low voltage (SELV): a safety isolating transformer keeps every live part below the limits
below. A residual-current device behind an isolating transformer sees nothing, and an earthed plate there turns the first
fault into the second.
`;

/** `docs/cautions.md`, from the registry. */
export function cautionsPage(): string {
  const missing = whatMayBeMissing();
  const sections = byHazard(CAUTION_RULES.map((rule) => ({ rule }))).map(
    ({ label, judgements }) =>
      `\n## ${capital(label)}\n${judgements.map(({ rule }) => entry(rule, missing.get(rule.id) ?? [])).join('')}`,
  );
  return [HEAD, ...sections, levels()].join('');
}

function entry(rule: CautionRule, missing: readonly string[]): string {
  return [
    '',
    `### ${capital(rule.rule)}`,
    '',
    `- Rule \`${rule.id}\`: ${condition(rule)}.`,
    ...missing.map((each) => `- Not judged: ${each}.`),
    `- What to do: ${rule.advice}`,
    `- Source: ${rule.source}.`,
    '',
  ].join('\n');
}

function condition({ value, raisedWhen, threshold, only, unit, impliedBy }: CautionRule): string {
  const what = CAUTION_VALUES[value];
  const isFlag = threshold === SET;
  const bound = typeof threshold === 'number' ? measure(threshold, unit) : CAUTION_VALUES[threshold];
  const raised = isFlag
    ? `${raisedWhen === 'above' ? 'where' : 'unless'} ${what}`
    : `${what}, ${raisedWhen} ${bound}`;
  const gate = only === undefined ? '' : `; only where ${CAUTION_VALUES[only]}`;
  const implied = impliedBy === undefined ? '' : `; left out where \`${impliedBy}\` is raised`;
  return raised + gate + implied;
}

/** Leaves inputs out of rigs that have them all, and collects what each rule then says. */
function whatMayBeMissing(): Map<string, string[]> {
  const table: Design = {
    ...FOYER,
    ...SOCKET,
    'standoff.breakdown': 20e6,
    'plate.edge': 0,
    'surroundings.operator_distance': 1,
  };
  const pan: Design = {
    ...table,
    floats: 2,
    'plate.load.water': 1,
    'plate.load.from': 293,
    'plate.load.to': 363,
  };
  const steel: Design = { ...pan, 'plate.layers.0.metal.relative_permeability': 200 };
  const paths = [
    'supply.line_voltage',
    'standoff.breakdown',
    'plate.radius',
    'coil.thermal_class',
    'supply.fuse.rating',
    'surroundings.visitor_distance',
    'surroundings.operator_distance',
  ];
  const rigs = [table, pan, steel].flatMap((rig) => [
    rig,
    ...paths.map((path) => ({ ...rig, [path]: Number.NaN })),
    { ...rig, 'coil.metal.density': 2704, 'plate.layers.0.metal.density': 2711 },
    { ...rig, 'supply.frequency': 400, 'supply.line_voltage': Number.NaN },
    { ...rig, 'supply.frequency': 400, 'supply.line_voltage': Number.NaN, 'drive.current': 0.02 },
    { ...rig, 'supply.frequency': 0.9 },
    {
      ...rig,
      'surroundings.visitor_distance': 0.15,
      'surroundings.operator_distance': 0.15,
      'drive.current': 0.1,
    },
  ]);
  const missing = new Map<string, Set<string>>();
  for (const rig of rigs) {
    const layout = { plateLayers: 1, windings: 0 };
    const slots = slotsOf(rig);
    for (const { rule, missing: why } of cautionsOf(layout, slots, atOwnDrive(layout, slots).results)) {
      if (why !== '') missing.set(rule.id, (missing.get(rule.id) ?? new Set()).add(why));
    }
  }
  return new Map([...missing].map(([id, reasons]) => [id, [...reasons].sort()]));
}

function levels(): string {
  const rows = [16.7, 50, 60, 400, 1e3, 3e3, 25e3, 100e3, 150e3, 1e6, 10e6].map((frequency) => {
    const name =
      frequency < 1e3
        ? `${frequency} Hz`
        : frequency < 1e6
          ? `${frequency / 1e3} kHz`
          : `${frequency / 1e6} MHz`;
    const cells = [implantLevel, publicLevel, occupationalLevel].map((level) =>
      significantMicro(level(frequency)),
    );
    return `| ${name} | ${cells.join(' | ')} |`;
  });
  return [
    '',
    '## Reference levels for magnetic fields',
    '',
    'Flux density, µT rms, of a sinusoidal field; the sources are those of the cautions above.',
    '',
    '| frequency | implants | public | people at work |',
    '|---|---|---|---|',
    ...rows,
    '',
  ].join('\n');
}

function significantMicro(tesla: number): string {
  return String(Number((tesla * 1e6).toPrecision(3)));
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
