"""Writes route.csv: a route on a real coast with its numbers by independent programs.

Needs RhumbSolve and GeoConvert of GeographicLib 2.1.2 (MIT) on the path. Kept beside the values; never run by a test.
"""

import subprocess

POINTS = [
    ("Start", 56.4000000, -5.5500000),
    ("Two", 56.4500000, -5.7000000),
    ("Three", 56.3500000, -5.7500000),
    ("Four", 56.3000000, -5.9500000),
    ("End", 56.3300000, -5.9900000),
]


def run(*command, line):
    return subprocess.run(command, input=line + "\n", capture_output=True, text=True, check=True).stdout.split()


print("# A route of four legs off the west coast of Scotland, computed by GeographicLib 2.1.2 (MIT):")
print("# `RhumbSolve -i -p 9` for the leg that ends at the row's point, `GeoConvert` for its UTM coordinates,")
print("# convergence and MGRS reference to 100 m (`-m -p -2`). Written by route_make.py.")
print("# Tolerances: distance 1e-6 m, bearing 1e-9 deg, easting and northing 1e-4 m, convergence 1e-9 deg.")
print("name,lat_deg,lon_deg,distance_m,bearing_deg,zone,easting_m,northing_m,convergence_deg,mgrs_100m")
before = None
for name, lat, lon in POINTS:
    here = f"{lat:.7f} {lon:.7f}"
    distance = bearing = ""
    if before:
        bearing, distance = run("RhumbSolve", "-i", "-p", "9", line=f"{before} {here}")[:2]
    zone, easting, northing = run("GeoConvert", "-u", "-p", "5", line=here)
    convergence = run("GeoConvert", "-c", "-p", "9", line=here)[0]
    mgrs = run("GeoConvert", "-m", "-p", "-2", line=here)[0]
    print(f"{name},{lat:.7f},{lon:.7f},{distance},{bearing},{zone},{easting},{northing},{convergence},{mgrs}")
    before = here
