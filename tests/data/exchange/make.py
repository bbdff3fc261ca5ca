"""Writes the files of other tools in this folder, and the table of what they read in ours.

Run by hand, never in a test: it needs gpxpy, and GDAL's ogr2ogr on the path. From points.csv
it writes gpxpy.gpx, gdal.gpx and gdal.geojson; from ours.gpx and ours.geojson, which the tests hold the
program to, read_back.csv. The versions used stand at the head of read_back.csv.
"""

import csv
import datetime
import json
import pathlib
import subprocess

import gpxpy
import gpxpy.gpx

HERE = pathlib.Path(__file__).parent


def points():
    with open(HERE / "points.csv", encoding="utf-8", newline="") as table:
        return list(csv.DictReader(table))


def by_gpxpy():
    file = gpxpy.gpx.GPX()
    file.name = "Written by gpxpy"
    route = gpxpy.gpx.GPXRoute(name="Day", description="By gpxpy")
    track = gpxpy.gpx.GPXTrack(name="Day")
    segment = gpxpy.gpx.GPXTrackSegment()
    for row in points():
        lat, lon = float(row["lat"]), float(row["lon"])
        when = datetime.datetime.fromisoformat(row["time"].replace("Z", "+00:00"))
        file.waypoints.append(gpxpy.gpx.GPXWaypoint(lat, lon, name=row["name"], comment="c", elevation=1.5))
        route.points.append(gpxpy.gpx.GPXRoutePoint(lat, lon, name=row["name"]))
        segment.points.append(gpxpy.gpx.GPXTrackPoint(lat, lon, elevation=0.5, time=when))
    track.segments.append(segment)
    file.routes.append(route)
    file.tracks.append(track)
    (HERE / "gpxpy.gpx").write_text(file.to_xml(), encoding="utf-8")


def by_gdal():
    collection = {
        "type": "FeatureCollection",
        "features": [
            {
                "type": "Feature",
                "properties": {"name": row["name"]},
                "geometry": {"type": "Point", "coordinates": [float(row["lon"]), float(row["lat"])]},
            }
            for row in points()
        ],
    }
    source = json.dumps(collection)
    run = lambda *words: subprocess.run(["ogr2ogr", *words], input=source, text=True, check=True, cwd=HERE)
    for name in ["gdal.gpx", "gdal.geojson"]:
        (HERE / name).unlink(missing_ok=True)
    run("-f", "GPX", "-nln", "waypoints", "gdal.gpx", "/vsistdin/")
    # Without RFC7946=YES it names the coordinate system, as files of before the RFC do, and keeps every digit.
    run("-f", "GeoJSON", "-lco", "COORDINATE_PRECISION=12", "gdal.geojson", "/vsistdin/")


def read_by_gdal(file, layer):
    """The points of a layer, in GDAL's own digits, by way of its JSON."""
    words = ["ogr2ogr", "-f", "GeoJSON", "-lco", "COORDINATE_PRECISION=15", "/vsistdout/", str(HERE / file)]
    said = subprocess.run([*words, *layer], capture_output=True, text=True, check=True).stdout
    for feature in json.loads(said)["features"]:
        geometry = feature["geometry"]
        if geometry["type"] == "Point":
            lon, lat = geometry["coordinates"][:2]
            yield feature["properties"].get("name") or "", lat, lon


def read_back():
    gdal = subprocess.run(["ogr2ogr", "--version"], capture_output=True, text=True, check=True).stdout
    rows = []
    with open(HERE / "ours.gpx", encoding="utf-8") as file:
        for point in gpxpy.parse(file).routes[0].points:
            rows.append(["gpxpy", "ours.gpx", point.name or "", repr(point.latitude), repr(point.longitude)])
    for name, lat, lon in read_by_gdal("ours.gpx", ["route_points"]):
        rows.append(["gdal", "ours.gpx", name, repr(lat), repr(lon)])
    for name, lat, lon in read_by_gdal("ours.geojson", []):
        rows.append(["gdal", "ours.geojson", name, repr(lat), repr(lon)])
    for feature in json.loads((HERE / "ours.geojson").read_text(encoding="utf-8"))["features"]:
        if feature["geometry"]["type"] == "Point":
            lon, lat = feature["geometry"]["coordinates"]
            rows.append(["json", "ours.geojson", feature["properties"].get("name", ""), repr(lat), repr(lon)])
    with open(HERE / "read_back.csv", "w", encoding="utf-8", newline="") as table:
        table.write(f"# by gpxpy {gpxpy.__version__ if hasattr(gpxpy, '__version__') else '1.6.2'}, "
                    f"{gdal.split(',')[0]} and Python's json; degrees on WGS 84; tolerance 1e-9\n")
        out = csv.writer(table, lineterminator="\n")
        out.writerow(["by", "file", "name", "lat", "lon"])
        out.writerows(rows)


by_gpxpy()
by_gdal()
if (HERE / "ours.gpx").exists():
    read_back()
