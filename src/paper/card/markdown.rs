//! A card as Markdown.

use super::content::{Content, LegLine, PointLine};
use super::ways;
use crate::marked::{escaped, table};

/// The columns of the legs.
const LEGS: [&str; 11] =
    ["", "to", "ref", "bearing", "back", "steer", "set, drift", "NM", "km", "time", "at"];

impl Content {
    /// The card as Markdown with tables (GitHub's dialect).
    #[must_use]
    pub fn markdown(&self) -> String {
        let mut out = vec![format!("# {}", escaped(&self.title)), String::new()];
        out.extend([escaped(&self.chart), String::new()]);
        for (name, words) in &self.facts {
            out.push(format!("- **{}**: {}", escaped(name), escaped(words)));
        }
        out.push(String::new());
        self.legs_marked(&mut out);
        self.tide_marked(&mut out);
        self.ways_marked(&mut out);
        out.push(String::new());
        for note in self.notes.iter().chain(&self.cautions) {
            out.extend([escaped(note), String::new()]);
        }
        let mut text = out.join("\n").trim_end().to_owned();
        text.push('\n');
        text
    }

    fn legs_marked(&self, out: &mut Vec<String>) {
        let start = cells(&self.start, &LegLine::default());
        let legs = self.legs.iter().map(|leg| cells(&leg.to, leg));
        let rows: Vec<[String; 11]> = std::iter::once(start).chain(legs).collect();
        table(out, &LEGS, &rows);
        let said = |before: &str, number: &str, notes: &[String]| {
            let words = format!("- {before} {number}: {}", escaped(&notes.join("; ")));
            (!notes.is_empty()).then_some(words)
        };
        let start = said("At", &self.start.number, &self.start.notes);
        let legs = self.legs.iter().flat_map(|LegLine { to, notes, .. }| {
            [said("To", &to.number, notes), said("At", &to.number, &to.notes)]
        });
        let notes: Vec<String> = legs.flatten().collect();
        let notes: Vec<String> = start.into_iter().chain(notes).collect();
        if !notes.is_empty() {
            out.push(String::new());
            out.extend(notes);
        }
    }

    fn tide_marked(&self, out: &mut Vec<String>) {
        let Some(tide) = &self.tide else { return };
        let port = format!("## Tide at {}, {} from the start", escaped(&tide.port), tide.away);
        out.extend([String::new(), port, String::new()]);
        let row = |water: &super::HighOrLow| {
            [water.name.to_owned(), water.clock.clone(), water.height.clone()]
        };
        let rows: Vec<[String; 3]> = tide.waters.iter().map(row).collect();
        table(out, &["", "at", "height"], &rows);
        out.extend([String::new(), format!("Told {}.", escaped(&tide.source))]);
    }

    fn ways_marked(&self, out: &mut Vec<String>) {
        if self.legs.is_empty() {
            return;
        }
        out.push(String::new());
        if self.ways_out.is_empty() {
            out.push(ways::NONE.to_owned());
            return;
        }
        out.extend([format!("## {}", ways::HEADING), String::new()]);
        let row = |way: &super::WayOut| {
            let (first, last) = (way.from_first.words(), way.from_last.words());
            let way = way.clone();
            [way.stage, way.name, way.reference, first, way.off, last, way.serves]
        };
        let rows: Vec<[String; 7]> = self.ways_out.iter().map(row).collect();
        let heads = ["stage", "landing", "ref", "from first", "off", "from last", "ground, serves"];
        table(out, &heads, &rows);
        out.extend([String::new(), escaped(&self.ways_legend())]);
    }
}

fn cells(point: &PointLine, leg: &LegLine) -> [String; 11] {
    let leg = leg.clone();
    let point = point.clone();
    [
        point.number,
        point.name,
        point.reference,
        leg.bearing,
        leg.back,
        leg.steer,
        leg.set,
        leg.nautical_miles,
        leg.kilometres,
        leg.time,
        point.clock,
    ]
}
