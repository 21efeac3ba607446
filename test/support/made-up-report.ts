import { createFrontArchive } from '../../src/front/front-archive.ts';
import { LAYER_THICKNESS, SLOT } from '../../src/model/inputs.ts';
import { column } from '../../src/model/rows.ts';
import { UNITS } from '../../src/model/units.ts';
import type {
  DesignMotion,
  DesignSensitivities,
  DesignSpread,
  DesignWarming,
  ReportInput,
} from '../../src/report/report-input.ts';
import { collectFront, markFront } from '../../src/store/front-rows.ts';
import { createSurvey } from '../../src/survey/survey.ts';
import { batchOf, type Row, workshopStudy } from './batches.ts';
import { FOYER, slotsOf } from './design.ts';

const TURNS = [300, 340, 380, 420, 460, 500];
const THICKNESSES = [0.001, 0.003, 0.006, 0.012];

/**
 * A report on rows that follow simple arithmetic instead of physics, so that its pictures change only when the drawing
 * of pictures does: two metals, six turn counts and four thicknesses; height is limited by the plate, mass grows with
 * the turns, copper is three times as heavy.
 */
export function madeUpReport(): ReportInput {
  const workshop = workshopStudy();
  const [metal, turns, thickness] = workshop.vary;
  const study = workshopStudy({
    rig: { ...workshop.rig, plateLayers: 1, texts: { 'plate.layers.0.metal': 'aluminium-1050' } },
    vary: [
      metal!,
      { ...turns!, levels: TURNS } as typeof turns & object,
      { ...thickness!, levels: THICKNESSES } as typeof thickness & object,
    ],
  });
  const rows = [0, 1].flatMap((level) =>
    TURNS.flatMap((n) =>
      THICKNESSES.map((t): Row => {
        const mass = (n / 150) * (level === 0 ? 1 : 3);
        const height = Math.max(0, (0.03 * t) / (t + 0.002) - 0.003 * mass + (n - 300) * 5e-5);
        const unmet = (mass > 3.2 ? 2 : 0) + (n > 480 ? 1 : 0);
        return {
          values: [level, n, t],
          status: height > 0 ? 'lifts' : 'rests',
          reason: height > 0 ? 0 : 1,
          unmet,
          feasible: unmet === 0,
          objectives: [height, mass],
          derived: [height / 12],
          quantities: {
            height,
            gap: height + 0.002,
            current: 12,
            voltage: n / 5,
            coil_mass: mass,
            liftoff_current: (8 + level) * (n / 300) ** -0.4 * (1 + 0.002 / t),
            chatter_current: 6.5 + 2 * level,
            coil_loss: n,
            plate_loss: 100,
          },
        };
      }),
    ),
  );
  const batch = batchOf(study, rows);
  const senses = study.objectives.map(({ sense }) => sense);
  const survey = createSurvey(study, () => createFrontArchive(senses));
  const archive = createFrontArchive(senses);
  survey.add(batch);
  archive.add(
    0,
    senses.map((_, o) => column(batch, batch.objectives, o)),
    batch.feasible,
  );
  const { ids, columns } = archive.front();
  const collected = collectFront(study, ids.length);
  collected.add(markFront(batch, ids));
  const front = collected.sorted();
  const last = front.count - 1;
  return {
    study,
    objectiveLabels: ['height', 'coil mass'],
    answer: ['Floats highest: design 0', 'Lightest: design 1'],
    front,
    survey: survey.survey(columns),
    slotsOf: (row) => {
      const slots = slotsOf(FOYER);
      slots[SLOT.turns] = front.values[row * 3 + 1]!;
      slots[SLOT.plateLayers + LAYER_THICKNESS] = front.values[row * 3 + 2]!;
      return slots;
    },
    chosen: [
      {
        row: 0,
        why: 'floats highest',
        lift: rising(8, front.objectives[0]!),
        cautions: [],
        heat: hill(),
        spread: spreadAbout(front.objectives[0]!, 2),
        sensitivities: changesOf(1),
        motion: madeUpBounce(),
        warming: madeUpWarming(),
      },
      {
        row: last,
        why: 'lightest',
        lift: rising(10, front.objectives[last]!),
        cautions: [],
        heat: null,
        spread: spreadAbout(front.objectives[last]!, 1),
        sensitivities: changesOf(-0.5),
        motion: null,
        warming: null,
      },
    ],
    watched: [
      { label: 'height', unit: UNITS.mm, bounds: [{ value: 0.017 }, { value: 1 }] },
      { label: 'coil mass', unit: UNITS.kg, bounds: [] },
      { label: 'voltage', unit: UNITS.V, bounds: [] },
    ],
    changeable: [
      { label: 'height', unit: UNITS.mm },
      { label: 'coil mass', unit: UNITS.kg },
      { label: 'rig cost', unit: UNITS.money },
    ],
    allowed: ['standoff', "plate's resistivity"],
    provenance: {
      version: '0.0.0',
      origin: { code: '0', catalogue: '0', engine: '0' },
      node: 'v20.0.0',
      threads: 1,
      seed: null,
      started: '2026-01-01T08:00:00.000Z',
      seconds: 1,
    },
  };
}

/** Two quantities that spread, the mass by slopes that explain too little of it, and one that does not. */
function spreadAbout(height: number, mass: number): DesignSpread {
  const about = (own: number, width: number, slopes: readonly number[], explained: number) => ({
    own,
    p05: own - width,
    median: own + 0.1 * width,
    p95: own + width,
    explained,
    slopes: Float64Array.from(slopes),
  });
  return {
    profile: {
      rigs: 256,
      probabilityLifts: 1,
      probabilityLimits: 0.96,
      quantities: [
        about(height, 0.001, [-0.8, 0.59], 0.988),
        about(mass, 0.05, [0.5, 0.5], 0.5),
        about(96, 0, [0, 0], Number.NaN),
      ],
    },
    allowed: "standoff ± 0.3 mm, plate's resistivity ± 5 %",
    rows: [['probability', '246 of 256 such rigs (96 %) meet all limits']],
    note: 'Shares are of the variance.',
  };
}

/** Three inputs: one that changes both, one that changes the height alone, one that makes a step of a cost. */
function changesOf(factor: number): DesignSensitivities {
  const slope = (more: number) => ({ text: `${more}`, more });
  return {
    rows: [['height', `12 mm: drive's current ${0.4 * factor} mm`]],
    note: 'each input by itself',
    inputs: [
      { name: "drive's current", value: '12 A', changes: [slope(0.4 * factor), slope(0), slope(0)] },
      {
        name: 'turns',
        value: '400',
        changes: [slope(-0.2 * factor), slope(0.03), { text: '+38 up, 0 down', more: Number.NaN }],
      },
      { name: 'standoff', value: '2 mm', changes: [slope(-0.02), slope(0), slope(0)] },
    ],
  };
}

/** Through the operating point, 12 A. */
function rising(liftoff: number, height: number) {
  return Array.from({ length: 20 }, (_, i) => ({
    current: i + 1,
    height: height * Math.sqrt(Math.max(0, (i + 1 - liftoff) / (12 - liftoff))),
    atLimit: i === 16,
    beyond: i > 16,
  }));
}

function hill() {
  const radii = Float64Array.from({ length: 24 }, (_, i) => (i + 0.5) / 120);
  return { radii, density: radii.map((r) => 1e5 * r * (0.2 - r)) };
}

/** Rises to a limit; the height falls as much. */
function madeUpWarming(): DesignWarming {
  return {
    held: 'supply voltage',
    rows: [['end', 'steady from here on']],
    moments: Array.from({ length: 41 }, (_, i) => {
      const risen = 1 - Math.exp(-i / 10);
      return {
        time: 60 * i,
        current: 12 - 3 * risen,
        height: 0.02 - 0.01 * risen,
        mean: 295 + 80 * risen,
        hottest: 295 + 100 * risen,
        plate: 295 + 20 * risen,
      };
    }),
    floats: true,
    thermalClass: 373.15,
    events: [
      { time: 900, label: null },
      { time: 1500, label: 'lands' },
    ],
  };
}

/** A bounce of 2 Hz that dies away, for a second. */
function madeUpBounce(): DesignMotion {
  const time = Array.from({ length: 101 }, (_, i) => i / 100);
  return {
    drive: '100 V switched on at once',
    rows: [['highest point', '17 mm after 0.25 s']],
    time,
    height: time.map((t) => 0.01 * (1 - Math.exp(-t) * Math.cos(4 * Math.PI * t))),
    steadyHeight: 0.01,
    headroom: 0.03,
  };
}
