// One-bit rows with the high bit first: the fast twin of ../msbRowsPlain.ts.

/**
 * The first `bytes` bytes of each of `rows` rows of `pitch` bytes, one row behind the other, each byte with its bits turned about and
 * those of `flip` inverted. Both sides must reach 16 bytes further than what is read and written.
 */
export function msbRows(
	input: usize,
	pitch: usize,
	rows: i32,
	bytes: usize,
	flip: i32,
	out: usize,
): void {
	const turned = i8x16(0, 8, 4, 12, 2, 10, 6, 14, 1, 9, 5, 13, 3, 11, 7, 15);
	const nibble = i8x16.splat(0x0f);
	const other = i8x16.splat(<i8>flip);
	for (let y = 0; y < rows; y++) {
		// What is written beyond a row's end, the next row writes over.
		for (let i: usize = 0; i < bytes; i += 16) {
			const v = v128.load(input + i);
			const high = i8x16.shl(i8x16.swizzle(turned, v128.and(v, nibble)), 4);
			const low = i8x16.swizzle(turned, i8x16.shr_u(v, 4));
			v128.store(out + i, v128.xor(v128.or(high, low), other));
		}
		input += pitch;
		out += bytes;
	}
}
