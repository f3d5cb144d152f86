"""The bench's peers from Debian's python3-opencv: one line of JSON in, one line of JSON out, timed around the call alone."""

import json
import sys
import time

import cv2
import numpy

cv2.setNumThreads(0 if "--threads" in sys.argv else 1)
held = {}


def load(path, width, height, planes):
    data = numpy.fromfile(path, dtype=numpy.uint8)
    return data.reshape((planes, height, width)) if planes > 1 else data.reshape((height, width))


def disc(radius):
    reach = int(radius)
    y, x = numpy.mgrid[-reach : reach + 1, -reach : reach + 1]
    return (x * x + y * y <= radius * radius).astype(numpy.uint8)


def run(name, args):
    picture = held.get("picture")
    if name == "load":
        held["picture"] = load(args["path"], args["width"], args["height"], args.get("planes", 1))
        held.pop("out", None)
        return None
    if name == "dilate":
        kernel = disc(args["radius"])
        held.setdefault("out", numpy.empty_like(picture))
        start = time.perf_counter()
        cv2.dilate(picture, kernel, held["out"], borderType=cv2.BORDER_CONSTANT, borderValue=0)
        spent = time.perf_counter() - start
        return spent, int(numpy.count_nonzero(held["out"]))
    if name == "open":
        kernel = disc(args["radius"])
        start = time.perf_counter()
        small = cv2.erode(picture, kernel, borderType=cv2.BORDER_CONSTANT, borderValue=0)
        opened = cv2.dilate(small, kernel, borderType=cv2.BORDER_CONSTANT, borderValue=0)
        thin = cv2.subtract(picture, opened)
        spent = time.perf_counter() - start
        return spent, int(numpy.count_nonzero(thin))
    if name == "components":
        start = time.perf_counter()
        count, _, stats, _ = cv2.connectedComponentsWithStats(picture, connectivity=8)
        spent = time.perf_counter() - start
        return spent, int(count - 1)
    if name == "argmax":
        size = (args["width"], args["height"])
        start = time.perf_counter()
        best = cv2.resize(picture[0], size, interpolation=cv2.INTER_LINEAR)
        winner = numpy.zeros_like(best)
        for k in range(1, picture.shape[0]):
            value = cv2.resize(picture[k], size, interpolation=cv2.INTER_LINEAR)
            ahead = cv2.compare(value, best, cv2.CMP_GT)
            winner = cv2.copyTo(numpy.full_like(winner, k), ahead, winner)
            best = cv2.max(best, value)
        packed = [numpy.packbits(winner == k, axis=1) for k in range(1, picture.shape[0])]
        spent = time.perf_counter() - start
        return spent, [int(numpy.unpackbits(rows).sum()) for rows in packed]
    if name == "threshold":
        tile = numpy.array(args["tile"], dtype=numpy.uint8).reshape((args["side"], args["side"]))
        height, width = picture.shape
        wall = numpy.tile(tile, (-(-height // args["side"]), -(-width // args["side"])))[:height, :width].copy()
        start = time.perf_counter()
        packed = numpy.packbits(picture >= wall, axis=1)
        spent = time.perf_counter() - start
        return spent, int(numpy.unpackbits(packed).sum())
    raise ValueError(name)


for line in sys.stdin:
    request = json.loads(line)
    answer = run(request["name"], request)
    print(json.dumps({"ms": answer[0] * 1000, "check": answer[1]} if answer else {}), flush=True)
