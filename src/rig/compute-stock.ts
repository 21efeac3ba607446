import { LAYER_THICKNESS, METAL_SLOTS, SLOT, STOCK_SLOT, WINDING, WINDING_SLOTS } from '../model/inputs.ts';
import { Q } from '../model/quantities.ts';
import { REASON } from '../model/status.ts';
import type { RigState } from './state.ts';

/** A reel that holds just enough is not short of it by rounding. */
const ROUNDING = 1e-9;

/**
 * What a design takes out of the store and what it costs. Without a stock file everything stays empty; what has no price
 * leaves its cost empty, and the rig's.
 */
export function computeStock(rig: RigState): void {
  const { slots, results } = rig;
  if (Number.isNaN(slots[STOCK_SLOT.wireWaste]!)) return;
  const wire = takeWire(rig);
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
  const continuous = slots[STOCK_SLOT.transformerCurrent]!;
  if (!Number.isNaN(continuous)) {
    const beyond = rig.current > continuous * (1 + ROUNDING);
    results[Q.transformer_holds] = beyond ? slots[STOCK_SLOT.transformerTime]! : Number.POSITIVE_INFINITY;
  }
  if (rig.reason !== REASON.none && rig.reason !== REASON.weak) return;
  if (wire > 1) rig.reason = REASON.shortReel;
  else if (plate > 1) rig.reason = REASON.smallSheet;
  else if (capacitor > 1) rig.reason = REASON.capacitorRating;
}

/**
 * Wire of all windings, in whole reels. Each of the wires in hand must come off one reel, unless reels may be joined; a
 * reel may give several of them. Returns the wire needed over what the reels hold; NaN where nothing states what they hold.
 */
function takeWire({ slots, results, coil }: RigState): number {
  if (woundOfOwnWire(slots, coil.count)) return Number.NaN;
  const strands = slots[SLOT.strands]!;
  const mass = coil.mass - slots[SLOT.coilExtraMass]!;
  const perMetre = mass / (coil.length * strands);
  const piece = coil.length * (1 + slots[STOCK_SLOT.wireWaste]!);
  const onReel = slots[STOCK_SLOT.reelLength]!;
  const reelLength = Number.isNaN(onReel) ? slots[STOCK_SLOT.reelMass]! / perMetre : onReel;
  let metres = piece * strands;
  let reels = Number.NaN;
  let use = Number.NaN;
  if (!Number.isNaN(reelLength)) {
    const there = slots[STOCK_SLOT.reels]!;
    const total = metres / reelLength;
    const pieces = Math.floor(reelLength / piece + ROUNDING);
    const joined = slots[STOCK_SLOT.joined] === 1;
    reels = joined || pieces === 0 ? wholeReels(total) : wholeReels(strands / pieces);
    use = joined ? total / there : piece / reelLength;
    // also NaN, where it is not stated how many there are
    if (reels > there) use = Math.max(use, reels / there);
    metres = reels * reelLength;
  }
  results[Q.wire_to_buy] = metres * perMetre;
  results[Q.wire_cost] = firstKnown(
    slots[STOCK_SLOT.reelPrice]! * reels,
    slots[STOCK_SLOT.wirePriceKg]! * metres * perMetre,
    slots[STOCK_SLOT.wirePriceM]! * metres,
  );
  return use;
}

function wholeReels(reels: number): number {
  return Math.max(1, Math.ceil(reels - ROUNDING));
}

/** A stock file knows the coil's wire, not one that a winding has to itself. */
function woundOfOwnWire(slots: Float64Array, windings: number): boolean {
  for (let w = 0; w < windings; w++) {
    const at = SLOT.windings + w * WINDING_SLOTS;
    if (!Number.isNaN(slots[at]!) || !Number.isNaN(slots[at + WINDING.wire]!)) return true;
  }
  return false;
}

/**
 * The plate and what it is cut from: a disc takes a square of its diameter. Returns its size over the sheet's; NaN where
 * either is not known.
 */
function takePlate({ slots, results, layerCount }: RigState): number {
  if (layerCount > 1) return Number.NaN;
  const at = SLOT.plateLayers;
  const [width, length] = outline(slots);
  const area = width * length;
  const perArea = slots[at + LAYER_THICKNESS]! * slots[at + METAL_SLOTS.density]!;
  const byMass = slots[STOCK_SLOT.platePriceKg]! * area * perArea;
  results[Q.plate_cost] = firstKnown(
    slots[STOCK_SLOT.sheetPrice]!,
    byMass < Number.POSITIVE_INFINITY ? byMass : Number.NaN,
    slots[STOCK_SLOT.platePriceM2]! * area,
  );
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

/** Of those that are known; NaN where none is. */
function largest(a: number, b: number, c: number): number {
  let most = Number.NaN;
  if (!Number.isNaN(a)) most = a;
  if (!Number.isNaN(b) && !(b <= most)) most = b;
  if (!Number.isNaN(c) && !(c <= most)) most = c;
  return most;
}
