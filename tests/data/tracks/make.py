#!/usr/bin/env python3
"""Makes south.gpx: a track of real form on the built-in demonstration, an invented place.

    python3 tests/data/tracks/make.py > tests/data/tracks/south.gpx

Plain steps of a second along the route's points on a sphere of the Earth's mean radius; a fix every 20 s with
errors of 4 m east and north; they leave at 12:58 UTC, twelve minutes after the plan. What happens is in DAY.
Python 3 alone; the seed is fixed.
"""
import math, random

POINTS = [
    (49.515028279, -28.725415132), (49.517186576, -28.721722498), (49.514756759, -28.708018844),
    (49.506856403, -28.668326398), (49.505546674, -28.6525025), (49.490296289, -28.654613231),
    (49.453600464, -28.619796996), (49.450492586, -28.613048243), (49.447722556, -28.606559832),
    (49.448332922, -28.604322414), (49.447574192, -28.601572243), (49.446260516, -28.591177877),
    (49.44706433, -28.586585227), (49.450201118, -28.58601719), (49.456279455, -28.571269559),
]
R = 6371008.8
KN = 1852 / 3600
START = 12 * 3600 + 40 * 60  # on the beach from 12:40 UTC

random.seed(14)
way = [POINTS[0]] * (18 * 60)


def beside(p, east, north):
    lat = p[0] + math.degrees(north / R)
    return (lat, p[1] + math.degrees(east / (R * math.cos(math.radians(p[0])))))


def go(to, knots):
    a = way[-1]
    mid = math.cos(math.radians((a[0] + to[0]) / 2))
    d = math.hypot((to[0] - a[0]), (to[1] - a[1]) * mid) * math.pi / 180 * R
    n = max(1, round(d / (knots * KN)))
    for i in range(1, n + 1):
        way.append((a[0] + (to[0] - a[0]) * i / n, a[1] + (to[1] - a[1]) * i / n))


# DAY: point by point, at these knots over the ground.
for i in (1, 2):
    go(POINTS[i], 3.1)
go(beside(POINTS[2], 900, -260), 3.9)
go(beside(POINTS[2], 420, -130), 2.6)          # back for a lost hat
go(POINTS[3], 4.2)
go(POINTS[4], 3.4)
go(POINTS[5], 3.0)
gap = len(way) + 600                            # the receiver was off for 12 min on the crossing
go(beside(POINTS[5], 2000, -1700), 3.2)         # off to the east, 800 m from the line
go(POINTS[6], 3.0)
go(POINTS[7], 2.8)
go(POINTS[8], 2.8)
way += [way[-1]] * (41 * 60)                    # tea
for i in range(9, 15):
    go(POINTS[i], 2.7)
way += [way[-1]] * (6 * 60)

print('<?xml version="1.0" encoding="UTF-8"?>')
print("<!-- Invented place. Made by tests/data/tracks/make.py; what happened is written there. -->")
print('<gpx version="1.1" creator="make.py" xmlns="http://www.topografix.com/GPX/1/1">')
print("<trk><name>Sunday, south</name><trkseg>")
for number, second in enumerate(range(0, len(way), 20)):
    if gap <= second < gap + 720:
        continue
    lat, lon = beside(way[second], random.gauss(0, 4), random.gauss(0, 4))
    if number == 200:
        lat += 0.05                             # a wild fix, 5.6 km north
    t = START + second
    if 300 <= number < 303:
        t -= 3600                               # times that run backwards
    for _ in range(2 if 400 <= number < 404 else 1):
        clock = f"{t // 3600:02}:{t // 60 % 60:02}:{t % 60:02}"
        print(f'<trkpt lat="{lat:.6f}" lon="{lon:.6f}"><time>2026-06-14T{clock}Z</time></trkpt>')
print("</trkseg></trk></gpx>")
