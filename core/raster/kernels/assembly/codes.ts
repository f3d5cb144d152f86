// The bits of a point's code and core, as core/separate/labels.ts and cores.ts have them.

export const SURE: i32 = 0x80;
export const LIKELY: i32 = 0x40;
export const TIGHT: i32 = 0x40;
export const FAR: i32 = 0x80;
export const LABEL: i32 = 0x3f;
