import { UsageError } from '../errors.ts';
import { analyseWaveform, type Estimated, type WaveformSummary } from '../measured/analyse-waveform.ts';
import { decodeTable } from '../measured/decode-table.ts';
import { readWaveform, type WaveformColumns } from '../measured/read-waveform.ts';
import { EXIT, type Io } from '../session/io.ts';
import { readStudyFile } from '../session/read-study-file.ts';
import { grouped } from '../text/grouped.ts';
import { listing, widthOf, wrap } from '../text/listing.ts';
import { significant } from '../text/significant.ts';

export interface WaveformOptions extends WaveformColumns {
  /** Standard uncertainties as written, such as `2 %` and `1 us`; null where not stated. */
  readonly voltageError: string | null;
  readonly currentError: string | null;
  readonly delayError: string | null;
  /** The row alone, as `compare` takes it. */
  readonly csv: boolean;
}

/** More than a scope exports, and what a machine reads in seconds. */
const MOST_BYTES = 200_000_000;

/** `eddylift waveform`: what a meter would read of an oscilloscope's voltage and current, as a row for `compare`. */
export async function waveform(file: string, options: WaveformOptions, io: Io): Promise<number> {
  const errors = {
    voltage: readFraction(options.voltageError, '--voltage-error'),
    current: readFraction(options.currentError, '--current-error'),
    delay: delayOf(options.delayError),
  };
  const { text } = decodeTable(await readStudyFile(file, io, MOST_BYTES));
  const summary = analyseWaveform(readWaveform(text, options), errors);
  if ('refused' in summary) throw new UsageError(`${file}: ${summary.refused}`);
  const row = rowOf(summary);
  if (options.csv) {
    io.stdout.write(row);
    return EXIT.done;
  }
  const width = widthOf(io.stdout);
  const { periods, samples, voltageOffset, currentOffset } = summary;
  const stated = options.voltageError ?? options.currentError ?? options.delayError;
  const note =
    stated === null
      ? 'The uncertainties are those of scatter and quantisation alone: --voltage-error, --current-error and --delay-error add those of probe, shunt and channels.'
      : 'Standard uncertainties; those of gain and delay as stated.';
  io.stdout.write(
    [
      `${file}: ${periods} whole ${periods === 1 ? 'period' : 'periods'}, ${grouped(samples)} samples\n`,
      listing(
        [
          [
            'voltage',
            estimateText(summary.voltage, 'V rms'),
            `offset ${significant(voltageOffset)} V taken off`,
          ],
          [
            'current',
            estimateText(summary.current, 'A rms'),
            `offset ${significant(currentOffset)} A taken off`,
          ],
          ['frequency', estimateText(summary.frequency, 'Hz'), ''],
          ['active power', estimateText(summary.power, 'W'), ''],
          ['power factor', estimateText(summary.powerFactor, ''), ''],
        ],
        width,
      ),
      `${wrap(note, width).join('\n')}\n\nAs a row for eddylift compare (--csv prints it alone):\n${row}`,
    ].join(''),
  );
  return EXIT.done;
}

/** `12.31 ± 0.02 A rms`, to the digits that the uncertainty leaves. */
function estimateText({ value, uncertainty }: Estimated, unit: string): string {
  if (!(uncertainty > 0)) return `${significant(value)} ${unit}`.trimEnd();
  const digits = Math.max(0, Math.min(9, 1 - Math.floor(Math.log10(uncertainty))));
  return `${value.toFixed(digits)} ± ${uncertainty.toFixed(digits)} ${unit}`.trimEnd();
}

/** Columns as measured tables have them. */
function rowOf({ voltage, current, frequency, power, powerFactor }: WaveformSummary): string {
  const columns: readonly (readonly [name: string, Estimated])[] = [
    ['current_A', current],
    ['voltage_V', voltage],
    ['supply_frequency_Hz', frequency],
    ['power_W', power],
    ['power_factor', powerFactor],
  ];
  const digits = (value: number) => String(Number(value.toPrecision(9)));
  const header = columns.flatMap(([name]) => [name, `${name}_u`]).join(',');
  const cells = columns.flatMap(([, { value, uncertainty }]) => [
    digits(value),
    uncertainty > 0 ? String(Number(uncertainty.toPrecision(3))) : '',
  ]);
  return `${header}\n${cells.join(',')}\n`;
}

function readFraction(text: string | null, option: string): number {
  if (text === null) return 0;
  const [, number, percent] = /^\s*([\d.]+(?:e[-+]?\d+)?)\s*(%?)\s*$/i.exec(text) ?? [];
  const fraction = Number(number) / (percent === '%' ? 100 : 1);
  if (!(fraction >= 0 && fraction < 1))
    throw new UsageError(`${option} ${JSON.stringify(text)}: wanted a share such as '2 %'`);
  return fraction;
}

function delayOf(text: string | null): number {
  if (text === null) return 0;
  const [, number, prefix = ''] = /^\s*([\d.]+(?:e[-+]?\d+)?)\s*([nuµm]?)s\s*$/i.exec(text) ?? [];
  const scale: Readonly<Record<string, number>> = { n: 1e-9, u: 1e-6, µ: 1e-6, m: 1e-3 };
  const delay = Number(number) * (scale[prefix] ?? 1);
  if (!(delay >= 0))
    throw new UsageError(`--delay-error ${JSON.stringify(text)}: wanted a time such as '1 us'`);
  return delay;
}
