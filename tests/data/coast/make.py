"""Writes west_coast.geojson and west_coast_expected.csv beside this file.

Usage: python3 make.py LAND, where LAND is land-10m.json of the npm package world-atlas 2.0.2 (ISC), which
holds Natural Earth's land at 1:10 million (public domain). Needs geographiclib 2.1 (MIT) from PyPI.
Kept beside the values that it made; never run by a test.
"""

import json
import pathlib
import sys

import geographiclib
from geographiclib.geodesic import Geodesic

HERE = pathlib.Path(__file__).parent
WEST, SOUTH, EAST, NORTH = -7.8, 55.0, -4.9, 58.6
GREAT_BRITAIN_VERTICES = 3698  # the last repeats the first

SOURCE = (
    "Great Britain and the islands off the west coast of Scotland: Natural Earth, land 1:10m, public domain, "
    "by npm world-atlas 2.0.2 (ISC), file land-10m.json; coordinates to 1e-7 degree. Written by make.py."
)


def rings(topology):
    scale, translate = topology["transform"]["scale"], topology["transform"]["translate"]
    arcs = []
    for arc in topology["arcs"]:
        x = y = 0
        points = []
        for dx, dy in arc:
            x, y = x + dx, y + dy
            points.append((round(x * scale[0] + translate[0], 7), round(y * scale[1] + translate[1], 7)))
        arcs.append(points)
    for geometry in topology["objects"]["land"]["geometries"]:
        for polygon in geometry["arcs"]:
            outer = []
            for index in polygon[0]:
                points = arcs[index] if index >= 0 else arcs[~index][::-1]
                outer += points[1:] if outer else points
            yield outer


def measured(ring):
    polygon = Geodesic.WGS84.Polygon()
    for lon, lat in ring[:-1]:
        polygon.AddPoint(lat, lon)
    count, perimeter, area = polygon.Compute()
    return count, perimeter, abs(area)


def main():
    wanted = []
    for ring in rings(json.load(open(sys.argv[1]))):
        inside = all(WEST < lon < EAST and SOUTH < lat < NORTH for lon, lat in ring)
        if inside or len(ring) == GREAT_BRITAIN_VERTICES:
            wanted.append(ring)
    wanted.sort(key=len, reverse=True)
    features = []
    lines = [
        f"# Perimeter and area of each ring of west_coast.geojson on WGS 84 by geographiclib {geographiclib.__version__} (Python).",
        "# Written by make.py. Units: metres, square metres. They are of the geodesics between the vertices as they",
        "# stand in the file. Of them themselves: 1e-9 of each. A chart rounds each vertex to 1 cm: allow 0.02 m a vertex,",
        "# and 0.02 m times the perimeter.",
        "feature,vertices,perimeter_m,area_m2",
    ]
    for number, ring in enumerate(wanted, 1):
        name = '"Great Britain"' if number == 1 else "null"
        points = ", ".join(f"[{lon}, {lat}]" for lon, lat in ring)
        features.append(
            f'{{"type": "Feature", "properties": {{"name": {name}}}, '
            f'"geometry": {{"type": "Polygon", "coordinates": [[{points}]]}}}}'
        )
        count, perimeter, area = measured(ring)
        lines.append(f"{number},{count},{perimeter:.7f},{area:.4f}")
    text = '{"type": "FeatureCollection",\n"source": ' + json.dumps(SOURCE) + ',\n"features": [\n'
    (HERE / "west_coast.geojson").write_text(text + ",\n".join(features) + "\n]}\n")
    (HERE / "west_coast_expected.csv").write_text("\n".join(lines) + "\n")


main()
