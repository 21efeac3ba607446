import type { DocumentBody } from '../documents/document-shapes.ts';
import { jsonCell } from '../documents/json-cell.ts';
import { INPUTS, type InputSpec, LAYER_SLOTS, MAX_LAYERS, SLOT } from '../model/inputs.ts';
import { QUANTITIES } from '../model/quantities.ts';
import { inputToUnit, type Unit } from '../model/units.ts';
import { EXIT, type Io } from '../session/io.ts';
import { printDocument } from '../session/print-document.ts';
import { listing, widthOf, wrap } from '../text/listing.ts';

/** `eddylift quantities`: everything that an expression may name. */
export function quantities(io: Io, { json = false } = {}): number {
  if (json) printDocument(io, 'quantities', allNames());
  else printNames(io);
  return EXIT.done;
}

function allNames(): DocumentBody<'quantities'> {
  return {
    quantities: QUANTITIES.map(({ name, column, unit, label, group, meaning, words, effort }) => ({
      ...{ name, column, unit: unit.symbol, label, group, meaning },
      words: [...words],
      on_request: effort > 0,
    })),
    inputs: INPUTS.map(({ name, path, unit, meaning, integer, minimum, maximum, above }) => ({
      ...{ name, path, unit: unit.symbol, meaning, integer },
      least: bound(minimum, unit),
      most: bound(maximum, unit),
      least_excluded: above,
    })),
  };
}

function bound(si: number, unit: Unit) {
  return Number.isFinite(si) ? inputToUnit(si, unit) : jsonCell(si);
}

function printNames(io: Io): void {
  const width = widthOf(io.stdout);
  const print = (text: string) => io.stdout.write(`${text}\n`);
  const paragraph = (text: string) => print(`${wrap(text, width).join('\n')}\n`);

  paragraph(
    'Quantities of a design. Expressions (derive, limits, objectives) name them as they stand here; tables add the unit, as in height_mm.',
  );
  const group = <T>(
    entries: readonly T[],
    of: (entry: T) => string,
    row: (entry: T) => readonly string[],
  ) => {
    const columns = entries.map(row);
    // one width for all groups, so that the columns of the whole page line up
    const pad = (cells: readonly string[]) =>
      cells.map((cell, c) =>
        c === cells.length - 1 ? cell : cell.padEnd(Math.max(...columns.map((other) => other[c]!.length))),
      );
    for (const name of new Set(entries.map(of))) {
      const members = entries.filter((entry) => of(entry) === name);
      print(name);
      print(
        listing(
          members.map((entry) => pad(row(entry))),
          width,
        ),
      );
    }
  };
  group(
    QUANTITIES,
    (quantity) => quantity.group,
    (quantity) => [quantity.name, quantity.unit.symbol, quantity.meaning],
  );
  paragraph(
    `Those that cost more than the rest are computed on request: where a study names them under keep, derive, limits or objectives, on cards and for the designs that a report shows. They are ${QUANTITIES.filter(
      ({ effort }) => effort > 0,
    )
      .map(({ name }) => name)
      .join(', ')}.`,
  );
  paragraph(
    `Inputs, which expressions may name, too. Of a plate's layers, the one nearest the coil stands here; the others are called plate_layers_1_thickness and so on, up to plate_layers_${MAX_LAYERS - 1}.`,
  );
  group(
    INPUTS.filter((input) => !isFartherLayer(input)),
    (input) => input.path.split('.')[0]!,
    (input) => [input.name, input.unit.symbol, input.meaning],
  );
}

function isFartherLayer({ slot }: InputSpec): boolean {
  const nearest = SLOT.plateLayers + LAYER_SLOTS;
  return slot >= nearest && slot < SLOT.plateLayers + MAX_LAYERS * LAYER_SLOTS;
}
