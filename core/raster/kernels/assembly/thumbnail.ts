// A packed mask made smaller so that no ink is lost: the fast twin of ../thumbnailPlain.ts.

/**
 * `outRows` rows of `outPitch` bytes at `out`, each from `factor` ≤ 32 rows of `bytes` at `input`: points `first` to before `last`
 * have ink where any of their squares had. `line` holds 16 zeros, `bytes` bytes and 16 zeros; in it, bits counted from its own
 * beginning, the square of point `first` begins at `begin`, and from `end` on all is bare.
 */
export function inkedSquares(
	input: usize,
	bytes: usize,
	factor: i32,
	line: usize,
	begin: i32,
	first: i32,
	last: i32,
	end: i32,
	out: usize,
	outPitch: usize,
	outRows: i32,
): void {
	const square = ((<u64>1) << (<u64>factor)) - 1;
	// Squares that lie whole in what one look holds, whatever bit it begins with.
	const many = 57 / factor;
	const cut = line + <usize>(end >> 3);
	const kept: i32 = (1 << (end & 7)) - 1;
	const after = line + 16 + bytes;
	for (let row = 0; row < outRows; row++) {
		for (let i: usize = 0; i < bytes; i += 16) {
			let at = input + i;
			let ink = v128.load(at);
			for (let k = 1; k < factor; k++) {
				at += bytes;
				ink = v128.or(ink, v128.load(at));
			}
			v128.store(line + 16 + i, ink);
		}
		input += bytes * <usize>factor;
		if (cut < after) {
			store<u8>(cut, <i32>load<u8>(cut) & kept);
			memory.fill(cut + 1, 0, after - cut - 1);
		}
		memory.fill(out, 0, outPitch);
		let bit = begin;
		for (let x = first; x < last; x += many) {
			let ink = load<u64>(line + <usize>(bit >> 3)) >> <u64>(bit & 7);
			bit += many * factor;
			if (ink == 0) continue;
			const stop = min(last, x + many);
			for (let p = x; p < stop; p++) {
				if ((ink & square) != 0) {
					const to = out + ((<usize>(p >> 5)) << 2);
					store<u32>(to, load<u32>(to) | (1 << (p & 31)));
				}
				ink >>= <u64>factor;
			}
		}
		out += outPitch;
	}
}
