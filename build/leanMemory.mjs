/**
 * How a program that makes films again and again is started on Linux. The C library (glibc) else keeps a store of freed memory
 * for every thread, up to eight a processor, and gives little of it back; one store for all holds a quarter less after
 * a few film sets, and does not grow with more. It can only be asked for before a program starts.
 */
export const ONE_ARENA = process.platform === 'linux' ? { MALLOC_ARENA_MAX: '1' } : {};

/**
 * Flags for such a program. Node's room for new values else swells to 48 MB in some film sets and shrinks again in others, so that what
 * the process holds swings by a third; everything large here lies outside that room, and film sets take no longer with less of it.
 */
export const SMALL_NURSERY = ['--max-semi-space-size=2'];
