/** Degrees: documents, options and screens. */
export type Deg = number & { readonly unit?: 'deg' };
/** Radians: inside the code. */
export type Rad = number & { readonly unit?: 'rad' };

export const toRad = (angle: Deg): Rad => ((angle as number) * Math.PI) / 180;
