"""The bench's peers from Debian's python3-opencv: one line of JSON in, one line of JSON out, processor time around the call alone."""

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
        start = time.process_time()
        cv2.dilate(picture, kernel, held["out"], borderType=cv2.BORDER_CONSTANT, borderValue=0)
        spent = time.process_time() - start
        return spent, int(numpy.count_nonzero(held["out"]))
    if name == "open":
        kernel = disc(args["radius"])
        start = time.process_time()
        small = cv2.erode(picture, kernel, borderType=cv2.BORDER_CONSTANT, borderValue=0)
        opened = cv2.dilate(small, kernel, borderType=cv2.BORDER_CONSTANT, borderValue=0)
        thin = cv2.subtract(picture, opened)
        spent = time.process_time() - start
        return spent, int(numpy.count_nonzero(thin))
    if name == "components":
        start = time.process_time()
        count, _, stats, _ = cv2.connectedComponentsWithStats(picture, connectivity=8)
        spent = time.process_time() - start
        return spent, int(count - 1)
    if name == "turn":
        start = time.process_time()
        turned = cv2.rotate(picture, cv2.ROTATE_90_COUNTERCLOCKWISE)
        spent = time.process_time() - start
        return spent, int(numpy.count_nonzero(turned))
    if name == "smaller":
        size = (picture.shape[1] // args["factor"], picture.shape[0] // args["factor"])
        part = picture[: size[1] * args["factor"], : size[0] * args["factor"]]
        start = time.process_time()
        small = cv2.resize(part, size, interpolation=cv2.INTER_AREA)
        spent = time.process_time() - start
        return spent, list(small.shape[::-1])
    if name == "or":
        other = numpy.roll(picture, 5, axis=1)
        out = numpy.empty_like(picture)
        cv2.bitwise_or(picture, other, out)
        start = time.process_time()
        cv2.bitwise_or(picture, other, out)
        spent = time.process_time() - start
        return spent, None
    if name == "distance":
        # Its exact mode; over a strip of rows, so that its own error on wide rows does not matter for the time.
        part = numpy.ascontiguousarray(picture[args["y"] : args["y"] + args["rows"]])
        start = time.process_time()
        cv2.distanceTransform(part, cv2.DIST_L2, cv2.DIST_MASK_PRECISE)
        spent = time.process_time() - start
        return spent, None
    if name == "classify":
        # The fastest exact way in general-purpose tools: a table of every colour, made beforehand, looked up.
        table = held["table"]
        words = picture.reshape(-1).view(numpy.uint32)
        out = numpy.empty(words.shape, dtype=numpy.uint8)
        start = time.process_time()
        numpy.take(table, numpy.bitwise_and(words, 0xFFFFFF), out=out, mode="clip")
        spent = time.process_time() - start
        return spent, [int(n) for n in numpy.bincount(out)]
    if name == "nearest":
        # Nearest of the given colours by the sum of absolute differences, which eight bits hold near enough: the least that
        # general-purpose operations can do it in.
        points = picture.reshape((picture.shape[0], -1, 4))
        start = time.process_time()
        planes = cv2.split(points)
        best = None
        winner = None
        for k, colour in enumerate(args["colours"]):
            off = [cv2.absdiff(planes[c], (float(colour[c]), 0.0, 0.0, 0.0)) for c in range(3)]
            off = cv2.add(cv2.add(off[0], off[1]), off[2])
            if best is None:
                best, winner = off, numpy.zeros_like(off)
            else:
                nearer = cv2.compare(off, best, cv2.CMP_LT)
                winner = cv2.max(winner, cv2.bitwise_and(nearer, (float(k), 0.0, 0.0, 0.0)))
                best = cv2.min(off, best)
        spent = time.process_time() - start
        return spent, [int(n) for n in numpy.bincount(winner.reshape(-1))]
    if name == "table":
        # For every colour of 24 bits the nearest of the given ones, by the sum of squared differences.
        levels = numpy.arange(256, dtype=numpy.int32)
        best = None
        table = None
        for k, (r, g, b) in enumerate(args["colours"]):
            off = (
                ((levels - b) ** 2)[:, None, None] + ((levels - g) ** 2)[None, :, None] + ((levels - r) ** 2)[None, None, :]
            ).reshape(-1)
            if best is None:
                best, table = off, numpy.zeros(off.shape, dtype=numpy.uint8)
            else:
                nearer = off < best
                table[nearer] = k
                best = numpy.minimum(best, off)
        held["table"] = table
        return 0.0, None
    if name == "argmax":
        size = (args["width"], args["height"])
        filter = cv2.INTER_CUBIC if args.get("cubic") else cv2.INTER_LINEAR
        start = time.process_time()
        best = cv2.resize(picture[0], size, interpolation=filter)
        winner = numpy.zeros_like(best)
        for k in range(1, picture.shape[0]):
            value = cv2.resize(picture[k], size, interpolation=filter)
            ahead = cv2.compare(value, best, cv2.CMP_GT)
            winner = cv2.copyTo(numpy.full_like(winner, k), ahead, winner)
            best = cv2.max(best, value)
        packed = [numpy.packbits(winner == k, axis=1) for k in range(1, picture.shape[0])]
        spent = time.process_time() - start
        return spent, [int(numpy.unpackbits(rows).sum()) for rows in packed]
    if name == "threshold":
        tile = numpy.array(args["tile"], dtype=numpy.uint8).reshape((args["side"], args["side"]))
        height, width = picture.shape
        wall = numpy.tile(tile, (-(-height // args["side"]), -(-width // args["side"])))[:height, :width].copy()
        start = time.process_time()
        packed = numpy.packbits(picture >= wall, axis=1)
        spent = time.process_time() - start
        return spent, int(numpy.unpackbits(packed).sum())
    raise ValueError(name)


for line in sys.stdin:
    request = json.loads(line)
    answer = run(request["name"], request)
    print(json.dumps({"ms": answer[0] * 1000, "check": answer[1]} if answer else {}), flush=True)
