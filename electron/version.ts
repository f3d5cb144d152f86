import facts from '../package.json' with { type: 'json' };

/** As package.json states it. */
export const VERSION: string = facts.version;
