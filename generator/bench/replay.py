"""The board laid again from `what_if`'s data alone: plain loops, no library, as a page's script does it too."""

from collections.abc import Sequence
from typing import Any

NEAR_SHARE, PENETRATED_MM = 1e-6, 1e-7
"""Points nearer than this share of the length are one place; a smaller penetration is rounding."""

Row = list[float]


def replay(data: dict[str, Any], *, shims_mm: Sequence[float], weights_n: Sequence[float]) -> dict[str, Any]:
    """Lay the board again with shims under its supports and other weights on it.

    Args:
        data: of `what_if`, as it is or read back from JSON.
        shims_mm: how much higher each support now is; below 0 where something was taken out.
        weights_n: load added at each weight place, N; below 0 where what lies there was taken off.

    Returns:
        See `settled`.

    Raises:
        ValueError: not one number a support or a place, or nothing presses down any more.
    """
    return settled(prepared(data), shims_mm=shims_mm, weights_n=weights_n)


def prepared(data: dict[str, Any]) -> dict[str, Any]:
    """The data with what every answer needs: stiffness between the nodes, and the heights that 1 N upwards gives.

    Columns start level at the tail tip; each is a list over the nodes.
    """
    x: Row = data["nodes"]["x_mm"]
    pieces = data["pieces"]
    firsts: list[int] = pieces["first_node"]
    loose, glued, free = [], [], []
    piece = 0
    for i in range(len(x) - 1):
        if piece + 1 < len(firsts) and i >= firsts[piece + 1]:
            piece += 1
        start = x[firsts[piece]]
        end = x[firsts[piece + 1]] if piece + 1 < len(firsts) else x[-1]
        begin, rise = pieces["free_start_per_mm"][piece], pieces["free_end_per_mm"][piece]
        rise = (rise - begin) / (end - start)
        loose.append(pieces["loose_n_mm2"][piece])
        glued.append(pieces["glued_n_mm2"][piece])
        free.append((begin + rise * (x[i] - start), begin + rise * (x[i + 1] - start)))
    points = [x[i] for i in data["touch"]["node"]]
    places = [x[i] for i in data["weights"]["node"]]
    out = {"data": data, "loose": loose, "glued": glued, "free": free, "points": points, "places": places}
    out["point_columns"] = [twice_summed(x, push_moments(x, place), loose) for place in points]
    out["place_columns"] = [twice_summed(x, push_moments(x, place), loose) for place in places]
    return out


def push_moments(x: Row, place: float) -> Row:
    """Moment at each node of 1 N upwards at one place, N·mm."""
    return [max(at - place, 0.0) for at in x]


def twice_summed(x: Row, moments: Row, stiffness: Row) -> Row:
    """Heights at the nodes of a beam that starts level at 0, from moments that run straight between the nodes."""
    heights, slope = [0.0], 0.0
    for i in range(len(x) - 1):
        size = x[i + 1] - x[i]
        start, end = moments[i] / stiffness[i], moments[i + 1] / stiffness[i]
        heights.append(heights[-1] + size * slope + size * size * (2 * start + end) / 6)
        slope += size * (start + end) / 2
    return heights


def settled(ready: dict[str, Any], *, shims_mm: Sequence[float], weights_n: Sequence[float]) -> dict[str, Any]:
    """The board at rest, from what `prepared` gave.

    Returns:
        "status": "ok", or "tips over", and then nothing but the next two.
        "total_n", "balance_x_mm": all loads, and where they balance.
        "loads_n", "touch_x_mm", "gaps_mm": of each support: load, its middle (None if it bears nothing), least gap.
        "node_heights_mm", "heights_mm": bottom above the level line at the nodes, and at the stations.
        "least_curvature_per_mm", "least_curvature_x_mm": both sides of every node counted.
        "inverted": stretches [from, to] that bend the wrong way.
        "released_mm": bottom at the stations after it is lifted off, in the rocker's own level, 0 at the low point.
    """
    data = ready["data"]
    supports = data["supports"]
    if len(shims_mm) != len(supports) or len(weights_n) != len(ready["places"]):
        raise ValueError("one shim a support and one weight a place")
    x: Row = data["nodes"]["x_mm"]
    length = data["length_mm"]
    total = data["load"]["total_n"] + sum(weights_n)
    if not total > 0:
        raise ValueError("the loads must press down in sum")
    more = [(n, j) for j, n in enumerate(weights_n) if n]
    balance = (data["load"]["moment_n_mm"] + sum(n * ready["places"][j] for n, j in more)) / total
    of = data["touch"]["support"]
    points: Row = ready["points"]
    asked = [supports[s]["height_mm"] + shims_mm[s] for s in of]
    able = _able(points, asked, NEAR_SHARE * length)
    if not points[able[0]] < balance < points[able[-1]]:
        return {"status": "tips over", "total_n": total, "balance_x_mm": balance}
    loaded = [
        height - sum(n * ready["place_columns"][j][i] for n, j in more)
        for i, height in enumerate(data["nodes"]["load_height_mm"])
    ]
    bearing, loads, tail, rise = _rest(ready, able, asked, loaded, total, balance)
    pushes = list(zip(bearing, loads, strict=True))
    heights = [
        loaded[i] + tail + rise * x[i] / length + sum(load * ready["point_columns"][j][i] for j, load in pushes)
        for i in range(len(x))
    ]
    moments = [
        data["nodes"]["load_moment_n_mm"][i]
        + sum(load * max(x[i] - points[j], 0.0) for j, load in pushes)
        - sum(n * max(x[i] - ready["places"][j], 0.0) for n, j in more)
        for i in range(len(x))
    ]
    out: dict[str, Any] = {"status": "ok", "total_n": total, "balance_x_mm": balance}
    out.update(_on_supports(data, points, pushes, asked, heights))
    out["node_heights_mm"] = heights
    out["heights_mm"] = [heights[i] for i in data["stations"]]
    out.update(_bends(ready, moments))
    out["released_mm"] = _released(ready, moments, heights)
    return out


def _able(points: Row, asked: Row, near: float) -> list[int]:
    """Points that can bear, tail first: of those at one place only the highest."""
    kept: list[int] = []
    for i in sorted(range(len(points)), key=lambda i: (points[i], -asked[i])):
        if kept and points[i] - points[kept[-1]] <= near:
            if asked[i] > asked[kept[-1]]:
                kept[-1] = i
        else:
            kept.append(i)
    return kept


def _rest(
    ready: dict[str, Any], able: list[int], asked: Row, loaded: Row, total: float, balance: float
) -> tuple[list[int], Row, float, float]:
    """Points that bear, their loads, and the rigid part (height at the tail, rise over the length).

    Starts on the outermost two, takes in the most deeply penetrated one, and steps only as far as no load turns
    negative; whatever would have to pull is let go.
    """
    nodes: list[int] = ready["data"]["touch"]["node"]
    length = ready["data"]["length_mm"]
    points: Row = ready["points"]
    wanted = [asked[i] - loaded[nodes[i]] for i in range(len(points))]
    give = [[column[node] for column in ready["point_columns"]] for node in nodes]
    bearing = [able[0], able[-1]]
    loads, tail, rise = _held(bearing, give, points, wanted, length, total, balance)
    for _ in range(50 + 10 * len(able)):
        worst, deepest = None, -PENETRATED_MM
        for i in able:
            if i not in bearing:
                gap = tail + rise * points[i] / length - wanted[i]
                gap += sum(load * give[i][j] for j, load in zip(bearing, loads, strict=True))
                if gap < deepest:
                    worst, deepest = i, gap
        if worst is None:
            return bearing, loads, tail, rise
        bearing, now = [*bearing, worst], [*loads, 0.0]
        while True:
            loads, tail, rise = _held(bearing, give, points, wanted, length, total, balance)
            pulling = [k for k, load in enumerate(loads) if load < 0]
            if not pulling or len(bearing) == 2:
                break
            step, first = min((now[k] / (now[k] - loads[k]), k) for k in pulling)
            now = [max(a + step * (b - a), 0.0) for a, b in zip(now, loads, strict=True)]
            del bearing[first], now[first]
        loads = [max(load, 0.0) for load in loads]
    raise ArithmeticError("the contact search did not end")


def _held(
    bearing: list[int], give: list[Row], points: Row, wanted: Row, length: float, total: float, balance: float
) -> tuple[Row, float, float]:
    """Loads and rigid part with these points held and the others free."""
    n = len(bearing)
    scale = max(abs(give[i][j]) for i in bearing for j in bearing) or 1.0
    rows = [[give[i][j] / scale for j in bearing] + [1.0, points[i] / length, wanted[i] / scale] for i in bearing]
    rows.append([1.0] * n + [0.0, 0.0, total])
    rows.append([points[j] / length for j in bearing] + [0.0, 0.0, total * balance / length])
    answer = solved(rows)
    return answer[:n], answer[n] * scale, answer[n + 1] * scale


def solved(rows: list[Row]) -> Row:
    """Unknowns of as many equations, each row its factors and then its right side, by elimination."""
    n = len(rows)
    for k in range(n):
        pivot = max(range(k, n), key=lambda i: abs(rows[i][k]))
        rows[k], rows[pivot] = rows[pivot], rows[k]
        for i in range(k + 1, n):
            share = rows[i][k] / rows[k][k]
            if share:
                for j in range(k, n + 1):
                    rows[i][j] -= share * rows[k][j]
    out = [0.0] * n
    for k in reversed(range(n)):
        out[k] = (rows[k][n] - sum(rows[k][j] * out[j] for j in range(k + 1, n))) / rows[k][k]
    return out


def _on_supports(
    data: dict[str, Any], points: Row, pushes: list[tuple[int, float]], asked: Row, heights: Row
) -> dict[str, Any]:
    """Load, middle of the load and least gap of each support."""
    of, nodes = data["touch"]["support"], data["touch"]["node"]
    n = len(data["supports"])
    loads, turns, gaps = [0.0] * n, [0.0] * n, [float("inf")] * n
    for j, load in pushes:
        loads[of[j]] += load
        turns[of[j]] += load * points[j]
    for i, support in enumerate(of):
        gaps[support] = min(gaps[support], max(heights[nodes[i]] - asked[i], 0.0))
    touch = [turns[s] / loads[s] if loads[s] > 0 else None for s in range(n)]
    return {"loads_n": loads, "touch_x_mm": touch, "gaps_mm": [0.0 if loads[s] > 0 else gaps[s] for s in range(n)]}


def _bends(ready: dict[str, Any], moments: Row) -> dict[str, Any]:
    """Least curvature and inverted stretches, curvature taken as straight between the nodes.

    A spread load bends it by less than 1e-7 /mm between nodes 50 mm apart, and only upwards, so the least is exact.
    """
    x, limit = ready["data"]["nodes"]["x_mm"], ready["data"]["inverted_per_mm"]
    least, place = float("inf"), 0.0
    inverted: list[Row] = []
    for i in range(len(x) - 1):
        start, end = (moments[i + side] / ready["loose"][i] + ready["free"][i][side] for side in (0, 1))
        for value, at in ((start, x[i]), (end, x[i + 1])):
            if value < least:
                least, place = value, at
        if min(start, end) >= limit:
            continue
        cut = x[i] + (x[i + 1] - x[i]) * (limit - start) / (end - start) if max(start, end) > limit else x[i + 1]
        low, high = (x[i], cut) if start < limit else (cut, x[i + 1])
        if inverted and low - inverted[-1][1] < NEAR_SHARE:
            inverted[-1][1] = high
        else:
            inverted.append([low, high])
    return {"least_curvature_per_mm": least, "least_curvature_x_mm": place, "inverted": inverted}


def _released(ready: dict[str, Any], moments: Row, heights: Row) -> Row:
    """Heights at the stations once lifted off: the glued board loses curvature M/E·I, its low point's tangent stays."""
    data = ready["data"]
    x, low, tilt = data["nodes"]["x_mm"], data["low_node"], data["line"]["tilt_mm"] / data["length_mm"]
    lost = twice_summed(x, moments, ready["glued"])
    slope = 0.0
    if low > 0:
        size = x[low] - x[low - 1]
        slope = (lost[low] - lost[low - 1]) / size
        slope += size * (moments[low - 1] + 2 * moments[low]) / (6 * ready["glued"][low - 1])
    return [
        heights[k] - heights[low] - (lost[k] - lost[low]) - (tilt - slope) * (x[k] - x[low]) for k in data["stations"]
    ]
