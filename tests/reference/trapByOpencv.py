"""T_i of one pair by OpenCV: dilate with the disc, cut to the neighbour, keep what is joined by a way of no more than
the radius and two steps, to eight and four neighbours by turns.

Arguments: own.pbm other.pbm radius_px out.pbm. Masks are raw PBM; 1 is ink.
"""
import sys

import cv2
import numpy as np


def read(path):
    with open(path, "rb") as file:
        assert file.readline() == b"P4\n"
        width, height = map(int, file.readline().split())
        rows = np.frombuffer(file.read(), np.uint8).reshape(height, (width + 7) // 8)
    return np.unpackbits(rows, axis=1)[:, :width]


own, other = read(sys.argv[1]), read(sys.argv[2])
radius = float(sys.argv[3])
reach = int(radius)
y, x = np.mgrid[-reach : reach + 1, -reach : reach + 1]
disc = (x * x + y * y <= radius * radius).astype(np.uint8)
added = cv2.dilate(own, disc, borderType=cv2.BORDER_CONSTANT, borderValue=0) & other
square = np.ones((3, 3), np.uint8)
cross = np.array([[0, 1, 0], [1, 1, 1], [0, 1, 0]], np.uint8)
reached = own
for step in range(1, int(np.ceil(radius)) + 3):
    grown = cv2.dilate(reached, square if step % 2 else cross, borderType=cv2.BORDER_CONSTANT, borderValue=0)
    reached = own | (grown & added)
result = reached
with open(sys.argv[4], "wb") as file:
    file.write(b"P4\n%d %d\n" % (own.shape[1], own.shape[0]))
    file.write(np.packbits(result, axis=1).tobytes())
