import { UsageError } from '../errors.ts';
import { parseMeasure, toSI } from '../expression/measure.ts';
import { UNITS, type Unit } from '../model/units.ts';
import type { MotionRequest } from '../rig/prepare-motion.ts';

/** What the command line gives of motion, as typed. */
export interface MotionArguments {
  /** `96V` or `12A`. */
  readonly switchOn: string | null;
  /** `0V..120V/3s`. */
  readonly ramp: string | null;
  readonly cutAt: string | null;
  /** `90deg`, or `worst`. */
  readonly phase: string | null;
  readonly seconds: string | null;
  readonly step: string | null;
}

export interface ReadMotion {
  readonly request: MotionRequest;
  readonly seconds: number;
}

/** Watched after the drive has come to its end, s. */
const WATCHED = 3;
/** Watched after a cut, s. */
const AFTER_CUT = 1;

/** Reads the options of `eddylift motion`; throws UsageError, in one line. */
export function readMotion(given: MotionArguments): ReadMotion {
  const { switchOn, ramp, phase } = given;
  if (switchOn !== null && ramp !== null) {
    throw new UsageError('--switch-on and --ramp both set the drive: give one of them');
  }
  const drive = switchOn !== null ? readSwitchOn(switchOn) : ramp !== null ? readRamp(ramp) : null;
  if (phase !== null && drive !== null && (drive.quantity === 'current' || drive.rise > 0)) {
    throw new UsageError(
      '--phase is that of the mains at switch-on: it goes with --switch-on and a voltage, such as --switch-on 96V',
    );
  }
  const cutAt =
    given.cutAt === null ? Number.POSITIVE_INFINITY : positive('--cut-at', given.cutAt, UNITS.s, '2s');
  const usual = (drive?.rise ?? 0) + WATCHED;
  const seconds =
    given.seconds === null
      ? Number.isFinite(cutAt)
        ? cutAt + AFTER_CUT
        : usual
      : positive('--for', given.seconds, UNITS.s, '5s');
  if (cutAt >= seconds && Number.isFinite(cutAt)) {
    throw new UsageError(
      `--cut-at ${given.cutAt} comes after the end of what is watched (--for ${given.seconds})`,
    );
  }
  return {
    request: {
      drive,
      cutAt,
      phase: phase === null || phase === 'worst' ? null : readPhase(phase),
      step: given.step === null ? null : positive('--step', given.step, UNITS.s, '0.1ms'),
    },
    seconds,
  };
}

type Drive = NonNullable<MotionRequest['drive']>;

function readSwitchOn(text: string): Drive {
  const { quantity, value } = level('--switch-on', text, '96V or 12A');
  if (!(value > 0)) throw new UsageError(`--switch-on ${text}: wanted more than 0`);
  return { quantity, from: value, to: value, rise: 0 };
}

function readRamp(text: string): Drive {
  const wanted = '0V..120V/3s';
  const [, first, last, time] = /^(.+)\.\.(.+)\/([^/]+)$/.exec(text) ?? [];
  if (!first || !last || !time)
    throw new UsageError(`--ramp ${text}: wanted from..to/time, such as ${wanted}`);
  const from = level('--ramp', first, wanted);
  const to = level('--ramp', last, wanted);
  if (from.quantity !== to.quantity)
    throw new UsageError(`--ramp ${text}: wanted two voltages or two currents`);
  return {
    quantity: from.quantity,
    from: from.value,
    to: to.value,
    rise: positive('--ramp', time, UNITS.s, wanted),
  };
}

function level(option: string, text: string, wanted: string): { quantity: Drive['quantity']; value: number } {
  for (const [quantity, unit] of [
    ['voltage', UNITS.V],
    ['current', UNITS.A],
  ] as const) {
    const read = parseMeasure(text, unit);
    if (!read.ok) continue;
    const value = toSI(read.value.value, read.value);
    if (value >= 0 && Number.isFinite(value)) return { quantity, value };
  }
  throw new UsageError(`${option} ${text}: wanted a voltage or a current, not negative, such as ${wanted}`);
}

function positive(option: string, text: string, unit: Unit, example: string): number {
  const read = parseMeasure(text, unit);
  const value = read.ok ? toSI(read.value.value, read.value) : Number.NaN;
  if (!(value > 0 && Number.isFinite(value))) {
    throw new UsageError(`${option} ${text}: wanted a time above 0, such as ${example}`);
  }
  return value;
}

function readPhase(text: string): number {
  const [, number] = /^(-?\d+(?:\.\d+)?)\s*(?:deg|°)?$/.exec(text.trim()) ?? [];
  if (number === undefined || Math.abs(Number(number)) > 360) {
    throw new UsageError(
      `--phase ${text}: wanted degrees after a zero of the mains, such as 90deg, or worst`,
    );
  }
  return (Number(number) * Math.PI) / 180;
}
