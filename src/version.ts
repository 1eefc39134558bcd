/** Which motescale this is. */

/** The version of the library, as in its package.json. */
export const version: string = '0.2.0';
