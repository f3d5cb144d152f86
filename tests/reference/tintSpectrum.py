"""The strongest wave in flat tints that is coarser than their grain, by numpy's Fourier transform.

Standard input: a line "side count limit…" (two limits a tint, cycles a point), then `count` squares of side × side bytes, 1 is ink.
Prints a line a tint: for each limit the amplitude of its strongest wave below it and above four cycles a side, as a share of full ink
(a sinusoid from 0 to 1 would have 0.5), and its frequency in cycles a point.
"""
import sys

import numpy as np

head = sys.stdin.buffer.readline().split()
side, count = int(head[0]), int(head[1])
limits = [float(v) for v in head[2:]]
hann = np.hanning(side + 1)[:side]
window = np.outer(hann, hann)
fx, fy = np.meshgrid(np.fft.rfftfreq(side), np.fft.fftfreq(side))
far = np.hypot(fx, fy)
for k in range(count):
    bits = np.frombuffer(sys.stdin.buffer.read(side * side), np.uint8).reshape(side, side)
    flat = (bits - bits.mean()) * window
    waves = 2 * np.abs(np.fft.rfft2(flat)) / window.sum()
    found = []
    for limit in limits[2 * k : 2 * k + 2]:
        low = np.where((far > 4 / side) & (far < limit), waves, 0)
        at = int(low.argmax())
        found.append(f"{low.flat[at]:.6f} {far.flat[at]:.5f}")
    print(*found)
