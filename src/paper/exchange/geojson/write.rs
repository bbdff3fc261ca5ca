//! A route written as GeoJSON.

use nav::Position;
use serde::Serialize;

use super::own::OwnMember;
use crate::exchange::export::{Export, Stage, Thing, Written, facts};

/// The text of a GeoJSON file, a feature a line.
pub(crate) fn write(export: &Export<'_>) -> Written {
    let (lines, thinning) = export.lines();
    let mut features: Vec<String> = Vec::new();
    let stages = export.stages();
    let points = &export.route.points;
    for (index, (point, stage)) in points.iter().zip(&stages).enumerate() {
        let properties = Properties {
            kind: "point",
            number: Some(index + 1),
            name: &point.name,
            note: &point.note,
            reference: &stage.reference,
            stop_min: point.stop.as_mins(),
            ..Properties::default()
        };
        let own = OwnMember { point: Some(index + 1), facts: facts(point), leg: None };
        features.push(feature(Geometry::Point(lon_lat(point.at)), properties, Some(own)));
    }
    let legs = points.windows(2).zip(lines.iter().zip(&stages).skip(1));
    for (index, (ends, (line, stage))) in legs.enumerate() {
        let [from, to] = ends else { continue };
        let line: Vec<Position> =
            std::iter::once(from.at).chain(line.iter().copied()).chain([to.at]).collect();
        features.push(leg(index + 1, &line, stage));
    }
    features.extend(export.things().iter().map(thing));
    if export.track {
        features.push(whole(export));
    }
    let head = format!(
        "{{\"type\":\"FeatureCollection\",\"title\":{},\"caution\":{},\"strandline\":{},\"features\":[\n",
        quoted(export.title()),
        quoted(&export.cautions()),
        quoted(&export.own_route()),
    );
    let text = head + &features.join(",\n") + "\n]}\n";
    Written { text, left_out: thinning.map(|it| it.said()).into_iter().collect() }
}

fn leg(number: usize, line: &[Position], stage: &Stage) -> String {
    let properties = Properties {
        kind: "leg",
        number: Some(number),
        bearing: &stage.bearing,
        nautical_miles: &stage.nautical_miles,
        kilometres: &stage.kilometres,
        ..Properties::default()
    };
    let own = OwnMember { leg: Some(number), ..OwnMember::default() };
    feature(line_of(line), properties, Some(own))
}

fn thing(thing: &Thing) -> String {
    let properties = Properties {
        kind: &thing.kind,
        name: &thing.name,
        note: &thing.note,
        ..Properties::default()
    };
    feature(Geometry::Point(lon_lat(thing.at)), properties, None)
}

/// The line of the whole route.
fn whole(export: &Export<'_>) -> String {
    let points = &export.route.points;
    let legs = (0..points.len().saturating_sub(1)).filter_map(|leg| export.route.line_of(leg));
    let first = points.first().map(|first| first.at);
    let line: Vec<Position> = first.into_iter().chain(legs.flat_map(|leg| leg.skip(1))).collect();
    let properties = Properties { kind: "line", name: export.title(), ..Properties::default() };
    // Marked as of this program, so that it is not taken for another route.
    feature(line_of(&line), properties, Some(OwnMember::default()))
}

#[derive(Serialize, Default)]
struct Properties<'a> {
    kind: &'a str,
    #[serde(skip_serializing_if = "Option::is_none")]
    number: Option<usize>,
    #[serde(skip_serializing_if = "str::is_empty")]
    name: &'a str,
    #[serde(skip_serializing_if = "str::is_empty")]
    note: &'a str,
    #[serde(skip_serializing_if = "str::is_empty")]
    reference: &'a str,
    #[serde(skip_serializing_if = "is_zero")]
    stop_min: i64,
    #[serde(skip_serializing_if = "str::is_empty")]
    bearing: &'a str,
    #[serde(skip_serializing_if = "str::is_empty")]
    nautical_miles: &'a str,
    #[serde(skip_serializing_if = "str::is_empty")]
    kilometres: &'a str,
}

// The signature is that of the attribute which calls it.
#[allow(clippy::trivially_copy_pass_by_ref)]
const fn is_zero(number: &i64) -> bool {
    *number == 0
}

#[derive(Serialize)]
#[serde(tag = "type", content = "coordinates")]
enum Geometry {
    Point([f64; 2]),
    LineString(Vec<[f64; 2]>),
    MultiLineString(Vec<Vec<[f64; 2]>>),
}

#[derive(Serialize)]
struct Feature<'a> {
    r#type: &'a str,
    geometry: Geometry,
    properties: Properties<'a>,
    #[serde(skip_serializing_if = "Option::is_none")]
    strandline: Option<OwnMember>,
}

fn feature(
    geometry: Geometry,
    properties: Properties<'_>,
    strandline: Option<OwnMember>,
) -> String {
    let feature = Feature { r#type: "Feature", geometry, properties, strandline };
    // Only maps with other keys than strings cannot be written.
    serde_json::to_string(&feature).unwrap_or_default()
}

fn quoted(text: &str) -> String {
    serde_json::to_string(text).unwrap_or_default()
}

fn lon_lat(at: Position) -> [f64; 2] {
    [at.lon.as_degrees(), at.lat.as_degrees()]
}

/// A line, in parts where it crosses the 180th meridian. Between two positions it is straight in longitude and
/// latitude, as the RFC has it.
fn line_of(line: &[Position]) -> Geometry {
    let mut parts: Vec<Vec<[f64; 2]>> = vec![Vec::new()];
    let mut before: Option<[f64; 2]> = None;
    for at in line.iter().copied().map(lon_lat) {
        if let Some(from) = before.filter(|from| (at[0] - from[0]).abs() > 180.0) {
            let (leaves, enters) = crossing(from, at);
            parts.last_mut().into_iter().for_each(|part| part.push(leaves));
            parts.push(vec![enters]);
        }
        parts.last_mut().into_iter().for_each(|part| part.push(at));
        before = Some(at);
    }
    match (parts.len(), parts.pop()) {
        (1, Some(only)) => Geometry::LineString(only),
        (_, last) => Geometry::MultiLineString(parts.into_iter().chain(last).collect()),
    }
}

/// Where a side crosses the 180th meridian, as it leaves the one side and enters the other.
fn crossing(from: [f64; 2], to: [f64; 2]) -> ([f64; 2], [f64; 2]) {
    let edge = 180.0_f64.copysign(from[0]);
    let (before, after) = (180.0 - from[0].abs(), 180.0 - to[0].abs());
    let part = if before + after > 0.0 { before / (before + after) } else { 0.0 };
    let lat = from[1] + (to[1] - from[1]) * part;
    ([edge, lat], [-edge, lat])
}
