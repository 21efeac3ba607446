import {
  LAYER_SLOTS,
  LAYER_THICKNESS,
  METAL_SLOTS,
  REEL,
  REEL_SLOTS,
  SLOT,
  STOCK_SLOT,
  WINDING,
  WINDING_SLOTS,
} from '../model/inputs.ts';
import { Q } from '../model/quantities.ts';
import { REASON } from '../model/status.ts';
import type { Coil } from './coil.ts';
import type { ReelCutting } from './reel-cutting.ts';
import type { RigState } from './state.ts';

/** A reel that holds just enough is not short of it by rounding. */
const ROUNDING = 1e-9;

/**
 * What a design takes out of the store and what it costs. Without a stock file everything stays empty; what has no price
 * leaves its cost empty, and the rig's.
 */
export function computeStock(rig: RigState, cutting: ReelCutting): void {
  const { slots, results } = rig;
  if (Number.isNaN(slots[STOCK_SLOT.wireWaste]!)) return;
  const wire = takeWire(rig, cutting);
  const plate = takePlate(rig);
  const rated = slots[STOCK_SLOT.capacitorVoltage]!;
  const capacitor = results[Q.capacitor_voltage]! / rated;
  results[Q.stock_use] = largest(wire, plate, capacitor);
  results[Q.rig_cost] =
    results[Q.wire_cost]! +
    results[Q.plate_cost]! +
    slots[STOCK_SLOT.fusePrice]! +
    slots[STOCK_SLOT.capacitorPrice]! +
    slots[STOCK_SLOT.transformerPrice]! +
    slots[STOCK_SLOT.extrasPrice]!;
  if (rig.reason !== REASON.none && rig.reason !== REASON.weak) return;
  if (wire > 1) rig.reason = REASON.shortReel;
  else if (plate > 1) rig.reason = REASON.smallSheet;
  else if (capacitor > 1) rig.reason = REASON.capacitorRating;
}

/**
 * Wire of all windings, in whole reels. Each of the wires in hand of a winding must come off one reel, unless reels may be
 * joined; a reel may give several, also of windings that take the same one. Returns the wire needed over what the reels
 * hold; NaN where nothing says what they hold.
 */
function takeWire({ slots, results, coil }: RigState, cutting: ReelCutting): number {
  let mass = 0;
  let cost = 0;
  let use = Number.NaN;
  for (let first = 0; first < coil.count; first++) {
    const at = wireOf(slots, first);
    let isKnown = false;
    for (let other = 0; other < first; other++) isKnown ||= sameWire(slots, coil, other, first);
    if (isKnown) continue;
    cutting.clear();
    for (let w = first; w < coil.count; w++) {
      if (w > first && !sameWire(slots, coil, first, w)) continue;
      const { winding, input } = coil.windings[w]!;
      cutting.add(winding.length * (1 + slots[STOCK_SLOT.wireWaste]!), input.strands);
    }
    const { winding, input } = coil.windings[first]!;
    const perMetre = winding.mass / (winding.length * input.strands);
    const onReel = slots[at + REEL.length]!;
    const reelLength = Number.isNaN(onReel) ? slots[at + REEL.mass]! / perMetre : onReel;
    const total = cutting.total();
    let metres = total;
    let reels = Number.NaN;
    if (!Number.isNaN(reelLength)) {
      const there = slots[at + REEL.count]!;
      const joined = slots[at + REEL.joined] === 1;
      const fits = cutting.longest <= reelLength * (1 + ROUNDING);
      reels = joined || !fits ? wholeReels(total / reelLength) : cutting.reels(reelLength);
      use = larger(use, joined ? total / reelLength / there : cutting.longest / reelLength);
      // also NaN, where it is not said how many there are
      if (reels > there) use = Math.max(use, reels / there);
      metres = reels * reelLength;
    }
    mass += metres * perMetre;
    cost += firstKnown(
      slots[at + REEL.price]! * reels,
      slots[at + REEL.priceKg]! * metres * perMetre,
      slots[at + REEL.priceM]! * metres,
    );
  }
  results[Q.wire_to_buy] = mass;
  results[Q.wire_cost] = cost;
  return use;
}

/** Where the wire of a winding stands among what comes from stock: the coil's, or one that it has to itself. */
function wireOf(slots: Float64Array, w: number): number {
  const at = SLOT.windings + w * WINDING_SLOTS;
  const isOwn = !Number.isNaN(slots[at]!) || !Number.isNaN(slots[at + WINDING.wire]!);
  return isOwn ? STOCK_SLOT.windingWire + w * REEL_SLOTS : STOCK_SLOT.wire;
}

/** Whether two windings are wound off the same reels. */
function sameWire(slots: Float64Array, { windings }: Coil, a: number, b: number): boolean {
  const [one, other] = [wireOf(slots, a), wireOf(slots, b)];
  if (one === other) return true;
  return (
    slots[one + REEL.id] === slots[other + REEL.id] && windings[a]!.input.wire === windings[b]!.input.wire
  );
}

function wholeReels(reels: number): number {
  return Math.max(1, Math.ceil(reels - ROUNDING));
}

/**
 * The plate and what it is cut from: a disc takes a square of its diameter. Returns its size over the sheet's; NaN where
 * either is not known.
 */
function takePlate({ slots, results, layerCount }: RigState): number {
  const [width, length] = outline(slots);
  const area = width * length;
  let cost = 0;
  for (let layer = 0; layer < layerCount; layer++) cost += layerCost(slots, layer, area);
  results[Q.plate_cost] = cost;
  if (layerCount > 1) return Number.NaN;
  const disc = slots[STOCK_SLOT.sheetRadius]!;
  if (!Number.isNaN(disc)) {
    const isDisc = Number.isNaN(slots[SLOT.plateSquare]!) && Number.isNaN(slots[SLOT.plateSides]!);
    return (isDisc ? slots[SLOT.plateRadius]! : Math.hypot(width, length) / 2) / disc;
  }
  const sheet = [slots[STOCK_SLOT.sheetWidth]!, slots[STOCK_SLOT.sheetLength]!] as const;
  const along = Math.max(width / sheet[0], length / sheet[1]);
  const across = Math.max(width / sheet[1], length / sheet[0]);
  return Math.min(along, across);
}

/** Of a sheet as it lies there, or of what is cut out of one; NaN without a price. */
function layerCost(slots: Float64Array, layer: number, area: number): number {
  const at = SLOT.plateLayers + layer * LAYER_SLOTS;
  const prices = layer === 0 ? STOCK_SLOT.platePriceKg : STOCK_SLOT.layerPrices + 2 * (layer - 1);
  const perArea = slots[at + LAYER_THICKNESS]! * slots[at + METAL_SLOTS.density]!;
  const byMass = slots[prices]! * area * perArea;
  return firstKnown(
    layer === 0 ? slots[STOCK_SLOT.sheetPrice]! : Number.NaN,
    byMass < Number.POSITIVE_INFINITY ? byMass : Number.NaN,
    slots[prices + 1]! * area,
  );
}

function outline(slots: Float64Array): readonly [number, number] {
  const square = slots[SLOT.plateSquare]!;
  if (!Number.isNaN(square)) return [square, square];
  const sides = [slots[SLOT.plateSides]!, slots[SLOT.plateSides + 1]!] as const;
  if (!Number.isNaN(sides[0])) return sides;
  const diameter = 2 * slots[SLOT.plateRadius]!;
  return [diameter, diameter];
}

function firstKnown(a: number, b: number, c: number): number {
  if (!Number.isNaN(a)) return a;
  return Number.isNaN(b) ? c : b;
}

function larger(a: number, b: number): number {
  return Number.isNaN(a) || b > a ? b : a;
}

/** Of those that are known; NaN where none is. */
function largest(a: number, b: number, c: number): number {
  let most = Number.NaN;
  if (!Number.isNaN(a)) most = a;
  if (!Number.isNaN(b) && !(b <= most)) most = b;
  if (!Number.isNaN(c) && !(c <= most)) most = c;
  return most;
}
