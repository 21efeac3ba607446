import { FLOATS, SLOT } from '../model/inputs.ts';
import { toUnit, UNITS } from '../model/units.ts';
import type { WarmEvent, Warming } from '../rig/follow-warming.ts';
import { aboutDuration, roundTemperature } from '../text/about-duration.ts';
import { formatDuration } from '../text/duration.ts';
import { measure, significant } from '../text/significant.ts';
import type { TextColumn } from '../text/text-columns.ts';

/** Rows of the printed table. */
const ROWS = 12;

/** A dozen moments of the course, the first and the last among them. */
export function warmColumns({ moments }: Warming, floats: boolean): TextColumn[] {
  const last = moments.at(-1)!.time;
  const chosen = Array.from({ length: ROWS }, (_, i) => {
    const time = (last * i * i) / ((ROWS - 1) * (ROWS - 1));
    return moments.find((moment) => moment.time >= time - 1e-9) ?? moments.at(-1)!;
  }).filter((moment, i, all) => i === 0 || moment !== all[i - 1]);
  const column = (label: string, unit: string, cells: string[]): TextColumn => ({
    label,
    unit,
    kind: 'number',
    cells,
  });
  const celsius = (si: number) => (Number.isNaN(si) ? '-' : String(Math.round(toUnit(si, UNITS.degC))));
  const columns = [
    { label: 'time', unit: '', kind: 'text' as const, cells: chosen.map(({ time }) => formatDuration(time)) },
    column(
      'current',
      'A',
      chosen.map(({ current }) => significant(current)),
    ),
    ...(floats
      ? [
          column(
            'height',
            'mm',
            chosen.map(({ height }) => significant(toUnit(height, UNITS.mm))),
          ),
        ]
      : []),
    column(
      'coil mean',
      '°C',
      chosen.map(({ mean }) => celsius(mean)),
    ),
    column(
      'hottest',
      '°C',
      chosen.map(({ hottest }) => celsius(hottest)),
    ),
    column(
      'plate',
      '°C',
      chosen.map(({ plate }) => celsius(plate)),
    ),
  ];
  return columns.filter(({ cells }) => cells.some((cell) => cell !== '-'));
}

const EVENTS: Readonly<Record<WarmEvent['what'], string>> = {
  'thermal class': 'the hottest place of the winding is at its thermal class: switch off',
  lands: 'the coil has come down to its standoff',
  'load is warm': 'the water is warm',
  'fuse may blow': 'the fuse may blow from now on',
  'fuse has blown': 'the fuse has blown at the latest',
};

/** For a picture, in which a line marks the thermal class. */
const SHORT: Readonly<Record<WarmEvent['what'], string | null>> = {
  'thermal class': null,
  lands: 'lands',
  'load is warm': 'water warm',
  'fuse may blow': 'fuse may blow',
  'fuse has blown': 'fuse blown',
};

/** What a picture of it shows. */
export function warmCurve({ moments, events }: Warming, slots: Float64Array) {
  return {
    moments,
    floats: slots[SLOT.floats] !== FLOATS.nothing,
    thermalClass: slots[SLOT.thermalClass]!,
    events: events.map(({ time, what }) => ({ time, label: SHORT[what] })),
  };
}

const ENDS: Readonly<Record<Warming['end'], string>> = {
  time: 'followed for as long as requested',
  steady: 'steady from here on',
  'runs away': 'the winding never settles: it heats until it fails',
  fuse: 'the fuse has blown',
};

/** What happens on the way, and how it ends. */
export function warmTopics({ moments, events, end }: Warming, slots: Float64Array) {
  const last = moments.at(-1)!;
  const limit = slots[SLOT.thermalClass]!;
  const eventText = (what: WarmEvent['what']) =>
    what === 'thermal class' ? `${EVENTS[what]} (${measure(limit, UNITS.degC)})` : EVENTS[what];
  return [
    ...events.map(({ time, what }) => [aboutDuration(time), eventText(what)] as const),
    [
      'end',
      `${ENDS[end]}: hottest place ${roundTemperature(toUnit(last.hottest, UNITS.degC))} °C after ${aboutDuration(last.time)}`,
    ] as const,
  ];
}
