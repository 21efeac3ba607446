import { type GaussRule, gaussLegendre } from './gauss-legendre.ts';

/** Sizes come in steps of so many points, so that few are ever computed. */
const STEP = 4;

/** Constants, computed when first used: a rule never changes, so it does not matter who uses it first. */
const RULES = new Map<number, GaussRule>();

/** A rule of at least `least` points. */
export function gaussRule(least: number): GaussRule {
  const size = STEP * Math.ceil(least / STEP);
  let rule = RULES.get(size);
  if (!rule) {
    rule = gaussLegendre(size);
    RULES.set(size, rule);
  }
  return rule;
}
