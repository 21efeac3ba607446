import * as z from 'zod';
import { flawed } from '../expression/outcome.ts';
import { type PricedBy, readPrice } from './price.ts';
import {
  coilMetal,
  fuseKind,
  insulation,
  leaf,
  measure,
  overload,
  plateMetal,
  strict,
  text,
} from './schema.ts';

/** The shape of a stock file: what lies in the store, what more can be ordered, and what it costs. */
function price(...kinds: readonly PricedBy[]) {
  return z
    .union([z.number(), z.string()], { error: `a price such as 12 EUR/${kinds[0]}` })
    .transform((written, context) => leaf(context, readPrice(written, kinds), written))
    .register(z.globalRegistry, { description: `its price, per ${kinds.join(', ')}: 12 EUR/${kinds[0]}` })
    .optional();
}

const FRACTION_WANTED = 'a share such as 5 %';
const fraction = z
  .union([z.number(), z.string()], { error: FRACTION_WANTED })
  .transform((written, context) => {
    const percent = /^\s*(\d+\.?\d*|\.\d+)\s*%\s*$/.exec(`${written}`)?.[1];
    const value = percent === undefined ? Number(written) : Number(percent) / 100;
    const isFraction = value >= 0 && value <= 1;
    return leaf(
      context,
      isFraction ? { ok: true, value } : flawed('not-a-fraction', `\`${written}\``, FRACTION_WANTED),
      written,
    );
  })
  .register(z.globalRegistry, { description: 'share of the wire that is wasted: 5 %; default 0' });

const name = text('a name', 'what it is called').optional();
const REELS_WANTED = 'a whole number of reels, or any';
const reelCount = z.union([z.literal('any'), z.number().int().min(1)], { error: REELS_WANTED });

const reel = strict(
  {
    name,
    metal: coilMetal,
    wire: measure('coil.wire'),
    insulation,
    mass: measure('stock.reel_mass').optional(),
    length: measure('stock.reel_length').optional(),
    reels: reelCount.meta({ description: `how many there are: ${REELS_WANTED}; default 1` }).optional(),
    joined: z
      .boolean({ error: 'true or false' })
      .register(z.globalRegistry, {
        description: 'true where one winding may be made of several reels, soldered',
      })
      .optional(),
    price: price('kg', 'm', 'piece'),
  },
  'a reel: {metal, wire, insulation, mass or length, price}',
  'a reel of wire',
);

const PLATE_SIDES = 'two lengths such as [400 mm, 300 mm]';
const sheet = strict(
  {
    name,
    metal: plateMetal,
    thickness: measure('plate.layers.0.thickness'),
    radius: measure('plate.radius').optional(),
    square: measure('plate.square').optional(),
    sides: z
      .array(measure('plate.sides.0'), { error: PLATE_SIDES })
      .length(2, { error: PLATE_SIDES })
      .optional(),
    price: price('piece', 'kg', 'm2'),
  },
  'a plate: {metal, thickness, radius or square or sides, price}',
  'a plate or sheet',
);

const fuse = strict(
  { name, rating: measure('supply.fuse.rating'), kind: fuseKind.optional(), price: price('piece') },
  'a fuse: {rating, kind, price}',
  'a fuse',
);

const capacitor = strict(
  {
    name,
    capacitance: measure('supply.series_capacitance'),
    voltage: measure('stock.capacitor_voltage').optional(),
    price: price('piece'),
  },
  'a capacitor: {capacitance, voltage, price}',
  'a capacitor',
);

const transformer = strict(
  {
    name,
    voltage: measure('supply.max_voltage'),
    current: measure('supply.max_current'),
    overload: overload.optional(),
    price: price('piece'),
  },
  'a variable transformer: {voltage, current, overload, price}',
  'a variable transformer',
);

const list = <Item extends z.ZodType>(item: Item, wanted: string) =>
  z
    .array(item, { error: wanted })
    .min(1, { error: wanted })
    .register(z.globalRegistry, { description: wanted })
    .optional();

export const STOCK = strict(
  {
    file: text('a file name', 'the file that holds this').optional(),
    currency: z
      .string({ error: 'a currency such as EUR' })
      .regex(/^[A-Za-z]{3}$/, { error: 'the three letters of a currency (ISO 4217), such as EUR' })
      .register(z.globalRegistry, {
        description: 'the one currency of all prices, by its three letters (ISO 4217)',
      })
      .optional(),
    waste: fraction.optional(),
    reels: list(reel, 'a list of reels: [{metal, wire, insulation, mass, price}, …]'),
    plates: list(sheet, 'a list of plates: [{metal, thickness, square, price}, …]'),
    fuses: list(fuse, 'a list of fuses: [{rating, kind, price}, …]'),
    capacitors: list(capacitor, 'a list of capacitors: [{capacitance, voltage, price}, …]'),
    transformers: list(transformer, 'a list of variable transformers: [{voltage, current, price}, …]'),
    prices: strict(
      {
        wire: list(
          strict(
            { metal: coilMetal, price: price('kg', 'm'), reel: measure('stock.reel_mass').optional() },
            '{metal, price, reel}, such as {metal: copper, price: 14 EUR/kg, reel: 5 kg}',
            'wire of any size to order',
          ),
          'a list: [{metal, price, reel}, …]',
        ),
        plate: list(
          strict(
            { metal: plateMetal, price: price('kg', 'm2') },
            '{metal, price}, such as {metal: aluminium, price: 8 EUR/kg}',
            'plate of any size to order',
          ),
          'a list: [{metal, price}, …]',
        ),
      },
      '{wire, plate}',
      'what can be ordered in any size',
    ).optional(),
    extras: list(
      strict(
        { name: text('a name', 'what it is'), price: price('piece') },
        '{name, price}, such as {name: posts, price: 20 EUR/piece}',
        'what every rig needs besides',
      ),
      'a list: [{name, price}, …]',
    ),
  },
  'a mapping with currency, reels, plates, fuses, capacitors, transformers, prices, extras',
  'what lies in the store and what it costs',
);

/** The `$id` of the schema: a name, not a place. */
const STOCK_ID = 'urn:eddylift:stock:1';

/** The committed `studies/stock.schema.json`, for editors. */
export function stockSchemaText(): string {
  const { $schema, ...schema } = z.toJSONSchema(STOCK, { io: 'input', reused: 'inline' });
  const named = { $schema, $id: STOCK_ID, title: 'Eddylift stock file', ...schema };
  return `${JSON.stringify(named, null, 2)}\n`;
}

export type StockShape = z.output<typeof STOCK>;
export type ReelShape = z.output<typeof reel>;
export type SheetShape = z.output<typeof sheet>;
