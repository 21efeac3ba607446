import { INK } from './palette.ts';

/**
 * Metals of a study, in its order. Chosen by a search so that any two stay 32 apart (CIELAB) for normal sight and for each
 * kind of colour blindness (model of Machado et al. 2009, from memory), and 3:1 against paper; marks differ, too.
 */
export const METAL_INKS = Object.freeze([
  { ink: INK.front, dash: [1, 0], mark: 'circle' },
  { ink: '#e25474', dash: [7, 3], mark: 'square' },
  { ink: '#a1830e', dash: [2, 3], mark: 'triangle-up' },
  { ink: '#853ee3', dash: [9, 3, 2, 3], mark: 'diamond' },
  { ink: '#190923', dash: [4, 4], mark: 'triangle-down' },
  { ink: '#6c2118', dash: [12, 4], mark: 'cross' },
]);
/** Likewise on a dark screen: 34 apart. */
export const METAL_INKS_DARK = Object.freeze([
  '#79b8f3',
  '#fcc3c0',
  '#c1eb55',
  '#bf1585',
  '#9e17e7',
  '#cb0e08',
]);
