/** The settings come from run.mjs. */
export default JSON.parse(process.env.MOTESCALE_STRYKER);
