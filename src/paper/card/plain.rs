//! A card as plain text of 80 columns.

use unicode_width::UnicodeWidthStr;

use super::content::{Content, LegLine, PointLine};
use super::tide::TideOfDay;
use super::ways;
use crate::plain::{COLUMNS, hanging, paragraph};

impl Content {
    /// The card as plain text, no line of it over 80 columns.
    #[must_use]
    pub fn text(&self) -> String {
        let mut out = Vec::new();
        paragraph(&mut out, "", &self.title);
        out.push("=".repeat(self.title.width().min(COLUMNS)));
        paragraph(&mut out, "", &self.chart);
        out.push(String::new());
        for (name, words) in &self.facts {
            hanging(&mut out, &format!("{name:<10}"), words);
        }
        out.push(String::new());
        self.legs_in(&mut out);
        if let Some(tide) = &self.tide {
            out.push(String::new());
            tide_in(&mut out, tide);
        }
        self.ways_in(&mut out);
        out.push(String::new());
        for note in self.notes.iter().chain(&self.cautions) {
            paragraph(&mut out, "", note);
        }
        let mut text = out.join("\n");
        text.push('\n');
        text
    }

    fn legs_in(&self, out: &mut Vec<String>) {
        point(out, &self.start);
        for leg in &self.legs {
            let figures = figures(leg);
            if !figures.is_empty() {
                hanging(out, "     | ", &figures);
            }
            for note in &leg.notes {
                hanging(out, "     | ", note);
            }
            point(out, &leg.to);
        }
    }

    fn ways_in(&self, out: &mut Vec<String>) {
        if self.legs.is_empty() {
            return;
        }
        out.push(String::new());
        if self.ways_out.is_empty() {
            paragraph(out, "", ways::NONE);
            return;
        }
        paragraph(out, "", ways::HEADING);
        for way in &self.ways_out {
            let (first, last) = way.stage.split_once('–').unwrap_or_default();
            let words = format!(
                "{}, {}: from point {first}: {}; from point {last}: {}; off {}; {}",
                way.name,
                way.reference,
                way.from_first.words(),
                way.from_last.words(),
                way.off,
                way.serves
            );
            hanging(out, &format!("  {:<6}", way.stage), &words);
        }
        paragraph(out, "  ", &self.ways_legend());
    }
}

/// `066°M back 246°M, steer 071°M, set 214°T 1.2 kn, 2.0 NM, 3.7 km, 40 min`.
fn figures(leg: &LegLine) -> String {
    let named = |name: &str, words: &str| {
        if words.is_empty() { String::new() } else { format!("{name}{words}") }
    };
    let bearing = format!("{}{}", leg.bearing, named(" back ", &leg.back));
    let parts = [
        bearing,
        named("steer ", &leg.steer),
        named("set ", &leg.set),
        leg.nautical_miles.clone(),
        leg.kilometres.clone(),
        leg.time.clone(),
    ];
    parts.into_iter().filter(|part| !part.is_empty()).collect::<Vec<_>>().join(", ")
}

/// A point: number, time, reference and name.
fn point(out: &mut Vec<String>, at: &PointLine) {
    let name = if at.name.is_empty() { String::new() } else { format!("  {}", at.name) };
    let clock = if at.clock.is_empty() { String::new() } else { format!("{}  ", at.clock) };
    hanging(out, &format!("{:>3}  ", at.number), &format!("{clock}{}{name}", at.reference));
    for note in &at.notes {
        hanging(out, "     ", note);
    }
}

fn tide_in(out: &mut Vec<String>, tide: &TideOfDay) {
    let waters: Vec<String> = tide
        .waters
        .iter()
        .map(|water| format!("{} {} {}", water.name, water.clock, water.height))
        .collect();
    paragraph(out, "", &format!("Tide at {}, {} from the start", tide.port, tide.away));
    paragraph(out, "  ", &waters.join(", "));
    paragraph(out, "  ", &format!("Told {}.", tide.source));
}
