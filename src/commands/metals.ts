import type { DocumentBody } from '../documents/document-shapes.ts';
import { aliasesOf } from '../model/metal-names.ts';
import { METALS, type Metal } from '../model/metals.ts';
import { EXIT, type Io } from '../session/io.ts';
import { printDocument } from '../session/print-document.ts';
import { listing, widthOf } from '../text/listing.ts';

/** `eddylift metals`: the catalogue, each value with its source. */
export function metals(io: Io, { json = false } = {}): number {
  if (json) {
    printDocument(io, 'metals', { metals: METALS.map(inNumbers) });
    return EXIT.done;
  }
  const width = widthOf(io.stdout);
  io.stdout.write('Metals that a study may name. A study may also give the numbers of its own metal.\n\n');
  for (const metal of METALS) {
    io.stdout.write(`${metal.name}: ${metal.description}\n${listing(rows(metal), width)}\n`);
  }
  return EXIT.done;
}

function inNumbers(metal: Metal): DocumentBody<'metals'>['metals'][number] {
  return {
    name: metal.name,
    also_called: [...aliasesOf(metal.name)],
    description: metal.description,
    resistivity: metal.resistivity,
    temperature_coefficient: metal.temperatureCoefficient,
    density: metal.density,
    specific_heat: metal.specificHeat,
    relative_permeability: metal.relativePermeability,
    melts_from: metal.meltsFrom,
  };
}

function rows(metal: Metal): string[][] {
  const { resistivity, temperatureCoefficient, density, specificHeat, relativePermeability, meltsFrom } =
    metal;
  const { saturation } = metal;
  const conductivity = 1e-6 / resistivity.value;
  return [
    ['also called', aliasesOf(metal.name).join(', ')],
    [
      'resistivity at 20 °C',
      `${digits(resistivity.value * 1e9)} nΩ·m (${digits(conductivity)} MS/m)`,
      resistivity.source,
    ],
    ['temperature coefficient', `${digits(temperatureCoefficient.value)} 1/K`, temperatureCoefficient.source],
    ['density', `${digits(density.value)} kg/m³`, density.source],
    ['specific heat', `${digits(specificHeat.value)} J/(kg·K)`, specificHeat.source],
    ['relative permeability', digits(relativePermeability.value), relativePermeability.source],
    ...(saturation ? [['saturation', `${digits(saturation.value)} T`, saturation.source]] : []),
    ['melts from', `${digits(meltsFrom.value - 273.15)} °C`, meltsFrom.source.replace(/^\d+ degC: /, '')],
  ];
}

function digits(value: number): string {
  return String(Number(value.toPrecision(4)));
}
