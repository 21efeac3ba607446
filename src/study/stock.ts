import type { Problem } from '../errors.ts';
import {
  FUSE_KINDS,
  LAYER_THICKNESS,
  MAX_WINDINGS,
  REEL,
  REEL_SLOTS,
  SLOT,
  STOCK_SLOT,
  WINDING,
} from '../model/inputs.ts';
import type { Limit } from '../model/program.ts';
import { Q } from '../model/quantities.ts';
import type { Choice, RigTemplate, StockFacts, Varied, VariedChoice } from '../model/study.ts';
import { inputToUnit, UNITS, type Unit } from '../model/units.ts';
import { choiceName } from './paths.ts';
import type { Path, Positions } from './positions.ts';
import type { Price, PricedBy } from './price.ts';
import { insulationSettings, layerSlot, metalSettings, windingSlot } from './rig.ts';
import { FROM_STOCK, type RigShape } from './schema.ts';
import { shapeProblems } from './shape-problems.ts';
import { type ReelShape, type SheetShape, STOCK, type StockShape } from './stock-schema.ts';

// Past 300 lines: each kind of part that a rack holds is read and chosen here, side by side.

/** What a study takes out of its stock file. */
export interface Stock {
  /** A choice an input that comes from stock, then what the study varies, with the prices of metals that it names. */
  readonly varied: readonly Varied[];
  /** How many of them come from stock. */
  readonly taken: number;
  readonly template: RigTemplate;
  /** Null for a study without one. */
  readonly facts: StockFacts | null;
  readonly problems: readonly Problem[];
}

type Settings = Choice['settings'];

/** An input that may come from stock: how a study calls it, where it stands, which list of the file it takes. */
interface Part {
  readonly path: string;
  readonly place: Path;
  readonly list: keyof Pick<StockShape, 'reels' | 'plates' | 'fuses' | 'capacitors' | 'transformers'>;
  readonly meaning: string;
  /** Paths that the part decides, too: none of them may vary beside it. */
  readonly decides: readonly RegExp[];
}

// biome-ignore format: a table reads better in rows
const PARTS: readonly Part[] = [
  ...Array.from({ length: MAX_WINDINGS }, (_, i): Part => ({
    path: `coil.windings.${i}.wire`, place: ['rig', 'coil', 'windings', i, 'wire'], list: 'reels', meaning: `reel of wire of winding ${i + 1}`,
    decides: [new RegExp(`^coil\\.windings\\.${i}\\.(metal|wire|insulation)`)],
  })),
  { path: 'coil.wire', place: ['rig', 'coil', 'wire'], list: 'reels', meaning: 'reel of wire', decides: [/^coil\.(metal|wire|insulation)/] },
  { path: 'plate.layers.0.thickness', place: ['rig', 'plate', 'thickness'], list: 'plates', meaning: 'plate from stock', decides: [/^plate\.layers\.0\./] },
  { path: 'supply.fuse.rating', place: ['rig', 'supply', 'fuse'], list: 'fuses', meaning: 'fuse from stock', decides: [/^supply\.fuse\.(rating|kind)/] },
  { path: 'supply.series_capacitance', place: ['rig', 'supply', 'series_capacitance'], list: 'capacitors', meaning: 'capacitor from stock', decides: [/^supply\.series_capacitance/] },
  { path: 'supply.transformer', place: ['rig', 'supply', 'transformer'], list: 'transformers', meaning: 'variable transformer from stock', decides: [/^supply\.(max_voltage|max_current|transformer)/] },
];

/** Reads a stock file; `at` is where it stands in what `positions` knows. */
export function readStockFile(
  raw: unknown,
  positions: Positions,
  at: Path = [],
): { readonly stock: StockShape } | { readonly problems: readonly Problem[] } {
  const parsed = STOCK.safeParse(raw);
  const below: Positions = {
    value(path, ...rest) {
      // what an item of a list lacks is shown at the item, not at the list
      const item = path.slice(0, -1);
      const isLacking = typeof item.at(-1) === 'number' && positions.source([...at, ...path]) === null;
      return positions.value([...at, ...(isLacking ? item : path)], ...rest);
    },
    key: (path) => positions.key([...at, ...path]),
    source: (path) => positions.source([...at, ...path]),
  };
  if (!parsed.success) return { problems: shapeProblems(parsed.error, raw, below) };
  const problems = [...moneyProblems(parsed.data, below), ...sizeProblems(parsed.data, below)];
  return problems.length > 0 ? { problems } : { stock: parsed.data };
}

/** Every price of a file, and where it stands. */
function pricesOf(value: unknown, path: Path = []): (readonly [Path, Price])[] {
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, inner]) => {
    const place: Path = [...path, Array.isArray(value) ? Number(key) : key];
    return key === 'price' && inner !== undefined
      ? [[place, inner as Price] as const]
      : pricesOf(inner, place);
  });
}

/** A file has one currency, and names it once. */
function moneyProblems(stock: StockShape, positions: Positions): Problem[] {
  const prices = pricesOf(stock);
  const currency = stock.currency?.toUpperCase();
  if (currency === undefined) {
    const first = prices[0];
    if (!first) return [];
    const [place, price] = first;
    const found = `\`${price.written}\` in a file that names no currency`;
    return [
      {
        code: 'no-currency',
        found,
        wanted: `\`currency: ${price.currency}\` at its head`,
        ...positions.value(place),
      },
    ];
  }
  return prices
    .filter(([, price]) => price.currency !== currency)
    .map(([place, price]) => ({
      code: 'two-currencies',
      found: `\`${price.written}\` in a file whose currency is ${currency}`,
      wanted: `a price in ${currency}: a file has one currency`,
      ...positions.value(place),
    }));
}

/** A reel states how much is on it; a plate has one size. */
function sizeProblems({ reels = [], plates = [] }: StockShape, positions: Positions): Problem[] {
  const problems: Problem[] = [];
  reels.forEach(({ mass, length }, i) => {
    if ((mass === undefined) !== (length === undefined)) return;
    const found = mass === undefined ? 'a reel without mass or length' : 'a reel with mass and length';
    problems.push({
      code: 'reel-size',
      found,
      wanted: 'the mass or the length of what is on it',
      ...positions.value(['reels', i]),
    });
  });
  plates.forEach(({ radius, square, sides }, i) => {
    if ([radius, square, sides].filter((size) => size !== undefined).length < 2) return;
    const at = positions.value(['plates', i]);
    problems.push({
      code: 'plate-twice',
      found: 'a plate of two sizes',
      wanted: 'one of radius, square and sides',
      ...at,
    });
  });
  return problems;
}

/**
 * What a study takes out of its stock: choices for the inputs that the rig takes from it, and prices for what it gives
 * by hand.
 * @param raw the study's `stock`
 * @param varied what `vary` varies
 */
export function readStock(
  raw: unknown,
  rig: RigShape | undefined,
  template: RigTemplate,
  varied: readonly Varied[],
  positions: Positions,
): Stock {
  const wanted = PARTS.filter((part) => isFromStock(rig, part.path));
  const none: Stock = { varied, taken: 0, template, facts: null, problems: [] };
  if (raw === undefined || typeof raw === 'string') {
    const problems = wanted.map(({ place }) => ({
      code: 'no-stock',
      found: `\`${FROM_STOCK}\` in a study that names no stock file`,
      wanted: '`stock: rack.yaml`, a file beside the study',
      ...positions.value(place),
    }));
    if (typeof raw === 'string' && problems.length === 0) {
      problems.push({
        code: 'stock-file',
        found: 'a stock file that was not read in',
        wanted: 'the study in a file beside it',
        ...positions.value(['stock']),
      });
    }
    return { ...none, problems };
  }
  const read = readStockFile(raw, positions, ['stock']);
  if ('problems' in read) return { ...none, problems: read.problems };
  const { stock } = read;
  const problems: Problem[] = [];
  const unpriced = new Set<string>();
  const note = (label: string, price: Price | undefined) => {
    if (price === undefined) unpriced.add(label);
  };
  const choices = wanted.flatMap((part): VariedChoice[] => {
    const clash = varied.find(({ path }) => part.decides.some((one) => one.test(path)));
    if (clash) {
      const found = `\`${choiceName(clash.path)}\` varies beside what comes from stock`;
      problems.push({
        code: 'stock-twice',
        found,
        wanted: `one of them: what is in stock decides it`,
        ...positions.value(part.place),
      });
      return [];
    }
    const levels = levelsOf(part, stock, rig, varied, note);
    if (levels.length === 0) {
      const what =
        stock[part.list] === undefined ? `no ${part.list}` : `none of the ${part.list} that the rig requires`;
      problems.push({
        code: 'not-in-stock',
        found: `${FROM_STOCK}, and there are ${what} in it`,
        wanted: `\`${part.list}\` in the stock file that suit the rig`,
        ...positions.value(part.place),
      });
      return [];
    }
    const name = choiceName(part.path);
    return [
      { kind: 'choice', path: part.path, name, column: name, meaning: part.meaning, levels: unlike(levels) },
    ];
  });

  const slots = Float64Array.from(template.slots);
  slots[STOCK_SLOT.wireWaste] = stock.waste ?? 0;
  for (const slot of [STOCK_SLOT.fusePrice, STOCK_SLOT.capacitorPrice, STOCK_SLOT.transformerPrice]) {
    slots[slot] = 0;
  }
  slots[STOCK_SLOT.extrasPrice] = 0;
  for (const extra of stock.extras ?? []) {
    note(extra.name, extra.price);
    slots[STOCK_SLOT.extrasPrice]! += extra.price?.amount ?? Number.NaN;
  }
  const isTaken = (path: string) => wanted.some((part) => part.path === path);
  const orders = ordersOf(stock, rig, template, isTaken);
  let priced = varied;
  for (const { path, what, of } of orders) {
    const label = template.texts[path];
    if (label !== undefined) {
      const { settings, price } = of(label);
      for (const [slot, value] of settings) slots[slot] = value;
      note(`${what} of ${label}`, price);
    }
    priced = priced.map((one) => {
      if (one.kind !== 'choice' || one.path !== path) return one;
      const levels = one.levels.map((level) => {
        const { settings, price } = of(level.label);
        note(`${what} of ${level.label}`, price);
        return { ...level, settings: [...level.settings, ...settings] };
      });
      return { ...one, levels };
    });
  }
  const facts: StockFacts = {
    file: stock.file ?? null,
    currency: stock.currency?.toUpperCase() ?? null,
    unpriced: [...unpriced],
  };
  // the part that changes the slowest is the one that costs most to compute anew
  return {
    varied: [...choices, ...priced],
    taken: choices.length,
    template: { ...template, slots },
    facts,
    problems,
  };
}

/** What the stock's own limit is: a design that needs more than there is, is none. */
export function stockLimit(facts: StockFacts | null): Limit[] {
  if (facts === null) return [];
  return [
    {
      text: 'stock_use <= 1',
      comparison: '<=',
      left: [{ op: 'quantity', index: Q.stock_use }],
      right: [{ op: 'constant', value: 1 }],
      implied: true,
    },
  ];
}

interface Order {
  /** Of the metal that decides the price. */
  readonly path: string;
  readonly what: 'wire' | 'plate';
  of(label: string): { readonly settings: Settings; readonly price: Price | undefined };
}

const priceFor = (price: Price | undefined, per: PricedBy) =>
  price?.per === per ? price.amount : Number.NaN;

/** What is ordered is known by its place in the list, after all reels: windings of one wire share its reels. */
function wireToOrder(
  { reels = [], prices }: StockShape,
  label: string,
  windings: readonly (number | null)[],
): ReturnType<Order['of']> {
  const index = prices?.wire?.findIndex(({ metal }) => metal.label === label) ?? -1;
  const found = prices?.wire?.[index];
  return {
    price: found?.price,
    settings: windings.map(wireSlot).flatMap(
      (at): Settings => [
        [at + REEL.id, found ? reels.length + index : Number.NaN],
        [at + REEL.priceKg, priceFor(found?.price, 'kg')],
        [at + REEL.priceM, priceFor(found?.price, 'm')],
        [at + REEL.mass, found?.reel ?? Number.NaN],
        [at + REEL.count, Number.POSITIVE_INFINITY],
      ],
    ),
  };
}

function plateToOrder({ prices }: StockShape, label: string, layer: number): ReturnType<Order['of']> {
  const found = prices?.plate?.find(({ metal }) => metal.label === label);
  const at = layer === 0 ? STOCK_SLOT.platePriceKg : STOCK_SLOT.layerPrices + 2 * (layer - 1);
  return {
    price: found?.price,
    settings: [
      [at, priceFor(found?.price, 'kg')],
      [at + 1, priceFor(found?.price, 'm2')],
    ],
  };
}

/** What is not taken from the store, by the metal that decides its price. */
function ordersOf(
  stock: StockShape,
  rig: RigShape | undefined,
  { plateLayers }: RigTemplate,
  isTaken: (path: string) => boolean,
): Order[] {
  const windings = rig?.coil?.windings ?? [];
  const ownWire = windings.map(
    ({ metal, wire, strands }) =>
      metal !== undefined ||
      wire !== undefined ||
      (typeof strands === 'object' && strands.diameter !== undefined),
  );
  const bought = [...windings.keys()].filter((w) => ownWire[w] && !isTaken(`coil.windings.${w}.wire`));
  const ofCoilMetal = bought.filter((w) => windings[w]!.metal === undefined);
  const orders: Order[] = bought
    .filter((w) => windings[w]!.metal !== undefined)
    .map((w) => ({
      path: `coil.windings.${w}.metal`,
      what: 'wire',
      of: (label) => wireToOrder(stock, label, [w]),
    }));
  const byCoil = [...(isTaken('coil.wire') ? [] : [null]), ...ofCoilMetal];
  const isUsed = windings.length === 0 || ownWire.includes(false) || ofCoilMetal.length > 0;
  if (byCoil.length > 0 && isUsed) {
    orders.push({ path: 'coil.metal', what: 'wire', of: (label) => wireToOrder(stock, label, byCoil) });
  }
  for (let layer = 0; layer < plateLayers; layer++) {
    if (isTaken(`plate.layers.${layer}.thickness`)) continue;
    orders.push({
      path: `plate.layers.${layer}.metal`,
      what: 'plate',
      of: (label) => plateToOrder(stock, label, layer),
    });
  }
  return orders;
}

type Note = (label: string, price: Price | undefined) => void;

/** What there is of a part, of those that suit what the rig states of it. Every level fixes the same inputs. */
function levelsOf(
  part: Part,
  stock: StockShape,
  rig: RigShape | undefined,
  varied: readonly Varied[],
  note: Note,
): readonly Choice[] {
  const noted = (label: string, price: Price | undefined, level: Omit<Choice, 'label' | 'entry'>) => {
    note(label, price);
    return { label, ...level };
  };
  const entered = <Entry>(
    entries: readonly Entry[] | undefined,
    suit: (entry: Entry) => boolean,
    level: (entry: Entry) => Omit<Choice, 'entry'>,
  ): Choice[] =>
    (entries ?? []).flatMap((entry, i) =>
      suit(entry) ? [{ ...level(entry), entry: [part.list, i] as const }] : [],
    );
  const any = () => true;
  switch (part.list) {
    case 'reels': {
      const winding = windingOf(part.path);
      const own = winding === null ? undefined : rig?.coil?.windings?.[winding];
      // what a winding leaves out it takes from the coil
      const wanted = {
        metal: own?.metal ?? rig?.coil?.metal,
        insulation: own?.insulation ?? rig?.coil?.insulation,
      };
      return entered(
        stock.reels,
        ({ metal, insulation }) => suits(wanted.metal, metal) && suits(wanted.insulation, insulation),
        (reel) => noted(reelLabel(reel), reel.price, reelLevel(reel, stock.reels!.indexOf(reel), winding)),
      );
    }
    case 'plates': {
      const sized =
        rig?.plate?.radius !== undefined ||
        rig?.plate?.square !== undefined ||
        rig?.plate?.sides !== undefined ||
        varied.some(({ path }) => /^plate\.(radius|square|sides)/.test(path));
      return entered(
        stock.plates,
        ({ metal }) => suits(rig?.plate?.metal, metal),
        (sheet) => noted(sheetLabel(sheet), sheet.price, sheetLevel(sheet, sized)),
      );
    }
    case 'fuses':
      return entered(stock.fuses, any, ({ name, rating, kind = 'gG', price }) =>
        noted(name ?? `${size(rating, UNITS.A)} ${kind}`, price, {
          settings: [
            [SLOT.fuseRating, rating],
            [SLOT.fuseKind, FUSE_KINDS[kind]],
            [STOCK_SLOT.fusePrice, price?.amount ?? Number.NaN],
          ],
          texts: { 'supply.fuse.kind': kind },
        }),
      );
    case 'capacitors':
      return entered(stock.capacitors, any, ({ name, capacitance, voltage, price }) =>
        noted(name ?? size(capacitance, UNITS.uF), price, {
          settings: [
            [SLOT.seriesCapacitance, capacitance],
            [STOCK_SLOT.capacitorVoltage, voltage ?? Number.NaN],
            [STOCK_SLOT.capacitorPrice, price?.amount ?? Number.NaN],
          ],
        }),
      );
    case 'transformers':
      return entered(stock.transformers, any, ({ name, voltage, current, overload, price }) =>
        noted(name ?? `${size(voltage, UNITS.V)} ${size(current, UNITS.A)}`, price, {
          settings: [
            [SLOT.maxVoltage, voltage],
            [SLOT.maxCurrent, Math.max(current, overload?.current ?? 0)],
            [SLOT.transformerCurrent, current],
            [SLOT.transformerOverloads, overload?.current ?? Number.NaN],
            [SLOT.transformerOverloads + 1, overload?.time ?? Number.NaN],
            [STOCK_SLOT.transformerPrice, price?.amount ?? Number.NaN],
          ],
        }),
      );
  }
}

/** What the rig names; a rig that names nothing takes anything. */
function suits(wanted: { readonly label: string } | undefined, there: { readonly label: string }): boolean {
  return wanted === undefined || wanted.label === there.label;
}

function size(si: number, unit: Unit): string {
  return `${inputToUnit(si, unit)} ${unit.symbol}`;
}

function reelLabel({ name, metal, wire, insulation }: ReelShape): string {
  return name ?? `${metal.label} ${size(wire, UNITS.mm)} ${insulation.label}`;
}

/** Which of several windings a path is of; null for the coil's own. */
function windingOf(path: string): number | null {
  const index = /^coil\.windings\.(\d)\./.exec(path)?.[1];
  return index === undefined ? null : Number(index);
}

/** Where what is bought of a wire stands: the coil's, or a winding's own. */
function wireSlot(winding: number | null): number {
  return winding === null ? STOCK_SLOT.wire : STOCK_SLOT.windingWire + winding * REEL_SLOTS;
}

/** `index`: which of the reels it is; windings that take the same one share it. */
function reelLevel(
  { metal, wire, insulation, mass, length, reels = 1, joined, price }: ReelShape,
  index: number,
  winding: number | null,
) {
  const from = wireSlot(winding);
  const at = winding === null ? null : windingSlot(winding);
  const path = winding === null ? 'coil' : `coil.windings.${winding}`;
  const enamel: Settings =
    at === null
      ? insulationSettings(insulation)
      : [
          [at + WINDING.insulationGrade, insulation.grade],
          [at + WINDING.insulationThickness, insulation.thickness],
        ];
  return {
    settings: [
      ...metalSettings(at ?? SLOT.coilMetal, metal),
      [at === null ? SLOT.wire : at + WINDING.wire, wire],
      ...enamel,
      [from + REEL.id, index],
      [from + REEL.mass, mass ?? Number.NaN],
      [from + REEL.length, length ?? Number.NaN],
      [from + REEL.count, reels === 'any' ? Number.POSITIVE_INFINITY : reels],
      [from + REEL.joined, joined ? 1 : 0],
      [from + REEL.priceKg, priceFor(price, 'kg')],
      [from + REEL.priceM, priceFor(price, 'm')],
      [from + REEL.price, priceFor(price, 'piece')],
    ] satisfies Settings,
    texts: { [`${path}.metal`]: metal.label, [`${path}.insulation`]: insulation.label },
  };
}

function sheetLabel({ name, metal, thickness, radius, square, sides }: SheetShape): string {
  if (name !== undefined) return name;
  const outline =
    radius !== undefined
      ? ` radius ${size(radius, UNITS.mm)}`
      : square !== undefined
        ? ` ${size(square, UNITS.mm)} square`
        : sides
          ? ` ${size(sides[0]!, UNITS.mm)} by ${size(sides[1]!, UNITS.mm)}`
          : '';
  return `${size(thickness, UNITS.mm)} ${metal.label}${outline}`;
}

/** `sized`: the rig states how large the plate is, and it is cut out; else the whole sheet is the plate. */
function sheetLevel({ metal, thickness, radius, square, sides, price }: SheetShape, sized: boolean) {
  const at = layerSlot(0);
  const own: Settings = [
    [SLOT.plateRadius, radius ?? Number.NaN],
    [SLOT.plateSquare, square ?? Number.NaN],
    [SLOT.plateSides, sides?.[0] ?? Number.NaN],
    [SLOT.plateSides + 1, sides?.[1] ?? Number.NaN],
  ];
  return {
    settings: [
      ...metalSettings(at, metal),
      [at + LAYER_THICKNESS, thickness],
      ...(sized ? [] : own),
      [STOCK_SLOT.sheetRadius, radius ?? Number.NaN],
      [STOCK_SLOT.sheetWidth, square ?? sides?.[0] ?? Number.NaN],
      [STOCK_SLOT.sheetLength, square ?? sides?.[1] ?? Number.NaN],
      [STOCK_SLOT.platePriceKg, priceFor(price, 'kg')],
      [STOCK_SLOT.platePriceM2, priceFor(price, 'm2')],
      [STOCK_SLOT.sheetPrice, priceFor(price, 'piece')],
    ] satisfies Settings,
    texts: { 'plate.layers.0.metal': metal.label },
  };
}

/** Two reels of one kind are distinguished by their number in the file. */
function unlike(levels: readonly Choice[]): Choice[] {
  return levels.map((level, i) => {
    const same = levels.filter(({ label }) => label === level.label).length > 1;
    return same ? { ...level, label: `${level.label} (${i + 1})` } : level;
  });
}

function isFromStock(rig: RigShape | undefined, path: string): boolean {
  const fuse = rig?.supply?.fuse;
  const given: Readonly<Record<string, unknown>> = {
    'coil.wire': rig?.coil?.wire,
    ...Object.fromEntries(
      (rig?.coil?.windings ?? []).map(({ wire }, i) => [`coil.windings.${i}.wire`, wire]),
    ),
    'plate.layers.0.thickness': rig?.plate?.thickness,
    'supply.fuse.rating': typeof fuse === 'object' ? fuse.rating : fuse,
    'supply.series_capacitance': rig?.supply?.series_capacitance,
    'supply.transformer': rig?.supply?.transformer,
  };
  return given[path] === FROM_STOCK;
}
