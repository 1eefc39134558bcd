/** What a solubility line can be, and where it may be asked. */

/** The temperatures of an oil at which a line may be asked, in °C. */
export const coldest = -50;
export const hottest = 150;

/**
 * The slopes b of oils, K (our choice). b is the heat of solution of water in the oil over R ln 10: 20 to 35 kJ/mol,
 * and so 1050 to 1850 K (from memory), 600 to 1700 in print. A flatter line comes of a warm sample that had dried or
 * a cold one with droplets in it, a steeper one of an error the other way.
 */
export const flattest = 500;
export const steepest = 3000;
