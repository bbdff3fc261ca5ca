//! GPX 1.1 written, its elements in the order that the schema wants.

use std::fmt::Write;

use nav::Position;
use plan::{Kept, Waypoint};
use quick_xml::escape::escape;

use super::{CREATOR, NAMESPACE, OWN_NAMESPACE};
use crate::exchange::export::{Export, Stage, Thing, Written, facts};

/// The text of a GPX file.
pub(super) fn write(export: &Export<'_>) -> Written {
    let mut out = Out::default();
    let (lines, thinning) = export.lines();
    out.line("<?xml version=\"1.0\" encoding=\"UTF-8\"?>");
    out.open(&format!(
        "gpx version=\"1.1\" creator=\"{CREATOR}\" xmlns=\"{NAMESPACE}\" xmlns:s=\"{OWN_NAMESPACE}\" \
         xmlns:xsi=\"http://www.w3.org/2001/XMLSchema-instance\" \
         xsi:schemaLocation=\"{NAMESPACE} {NAMESPACE}/gpx.xsd\""
    ));
    out.open("metadata");
    out.text("name", export.title());
    out.text("desc", &export.cautions());
    out.close("metadata");
    for thing in export.things() {
        waypoint(&mut out, &thing);
    }
    route(&mut out, export, &lines);
    if export.track {
        track(&mut out, export);
    }
    out.close("gpx");
    Written { text: out.text, left_out: thinning.map(|it| it.said()).into_iter().collect() }
}

fn waypoint(out: &mut Out, thing: &Thing) {
    out.open(&format!("wpt {}", place(thing.at)));
    out.text("name", &thing.name);
    out.text("cmt", &thing.note);
    out.text("type", &thing.kind);
    out.close("wpt");
}

fn route(out: &mut Out, export: &Export<'_>, lines: &[Vec<Position>]) {
    out.open("rte");
    out.text("name", export.title());
    out.text("desc", &export.cautions());
    out.open("extensions");
    out.text("s:route", &export.own_route());
    out.close("extensions");
    let stages = export.stages();
    for ((point, line), stage) in export.route.points.iter().zip(lines).zip(&stages) {
        for &at in line {
            out.open(&format!("rtept {}", place(at)));
            out.line("<extensions><s:between/></extensions>");
            out.close("rtept");
        }
        turning_point(out, point, stage);
    }
    out.close("rte");
}

fn turning_point(out: &mut Out, point: &Waypoint, stage: &Stage) {
    out.open(&format!("rtept {}", place(point.at)));
    let none = Kept::default();
    let kept = point.kept.as_deref().unwrap_or(&none);
    let height = kept.height.map(|height| height.as_metres().to_string());
    out.text("ele", &height.unwrap_or_default());
    out.text("name", &point.name);
    out.text("cmt", &point.note);
    let description = [kept.description.clone(), stage.words()];
    out.text(
        "desc",
        &description.into_iter().filter(|it| !it.is_empty()).collect::<Vec<_>>().join("; "),
    );
    for link in &kept.links {
        out.open(&format!("link href=\"{}\"", escape(&link.address)));
        out.text("text", &link.text);
        out.text("type", &link.kind);
        out.close("link");
    }
    out.text("sym", &kept.symbol);
    out.text("type", &kept.class);
    if let Some(facts) = facts(point) {
        out.open("extensions");
        out.text("s:point", &facts);
        out.close("extensions");
    }
    out.close("rtept");
}

/// The line of the whole route.
fn track(out: &mut Out, export: &Export<'_>) {
    out.open("trk");
    out.text("name", export.title());
    out.line("<extensions><s:line/></extensions>");
    out.open("trkseg");
    for point in &export.route.points {
        let between = point.along.as_ref().map(|along| &along.line[..]).unwrap_or_default();
        for &at in between.iter().chain([&point.at]) {
            out.line(&format!("<trkpt {}/>", place(at)));
        }
    }
    out.close("trkseg");
    out.close("trk");
}

/// A position to the last digit. The schema ends longitudes before 180, which is -180 as well.
fn place(at: Position) -> String {
    let (lat, lon) = (at.lat.as_degrees(), at.lon.as_degrees());
    format!("lat=\"{lat}\" lon=\"{}\"", if lon == 180.0 { -180.0 } else { lon })
}

/// The text as it grows.
#[derive(Default)]
struct Out {
    text: String,
    depth: usize,
}

impl Out {
    fn line(&mut self, line: &str) {
        // Writing to a string cannot fail.
        let _ = writeln!(self.text, "{:1$}{line}", "", 2 * self.depth);
    }

    /// An element with what is in its tag.
    fn open(&mut self, tag: &str) {
        self.line(&format!("<{tag}>"));
        self.depth += 1;
    }

    fn close(&mut self, name: &str) {
        self.depth -= 1;
        self.line(&format!("</{name}>"));
    }

    /// An element of text; none where there is no text.
    fn text(&mut self, name: &str, text: &str) {
        if !text.is_empty() {
            self.line(&format!("<{name}>{}</{name}>", escape(text)));
        }
    }
}
