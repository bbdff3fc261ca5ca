//! Writes a chart as people read it: one thing to a line, points several to a line.
//!
//! The order of fields and things is fixed and numbers are written in the shortest form that
//! reads back as the same number, so that a small change to a chart is a small change to its text.

use std::fmt::{self, Display, Write};

use super::VERSION;
use crate::model::{
    Chart, Constituent, DepthArea, Drying, Gate, Hazard, Land, Landing, Mark, Place, Point, Port,
    PortTide, Race, Runs, Sill, Stream, StreamRates,
};
use crate::printed::{Means, PrintedWater};

/// How long a line of points may become, in characters.
const WIDTH: usize = 96;

/// The text of a chart file that holds the whole chart.
///
/// Reading it gives an equal chart, as long as the chart is one that can be read: names clean,
/// rings turned left, nothing that [`check::faults`](crate::check::faults) finds.
pub fn write(chart: &Chart) -> String {
    text(chart, None)
}

/// The text of a chart file whose land and shorelines are in a GeoJSON file beside it, at `path`
/// from the chart's folder.
pub fn write_with_shore_beside(chart: &Chart, path: &str) -> String {
    text(chart, Some(path))
}

fn text(chart: &Chart, beside: Option<&str>) -> String {
    let mut text =
        String::from("// A Strandline chart; src/chart/format/FORMAT.md describes the format.\n");
    // Writing to a String cannot fail.
    let _ = Writer { out: &mut text }.chart(chart, beside);
    text
}

struct Writer<'a> {
    out: &'a mut String,
}

/// A string in RON's quotes.
pub(super) struct Quoted<'a>(pub(super) &'a str);

impl Display for Quoted<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_char('"')?;
        for c in self.0.chars() {
            match c {
                '"' | '\\' => write!(f, "\\{c}")?,
                c if c.is_control() => write!(f, "\\u{{{:x}}}", u32::from(c))?,
                c => f.write_char(c)?,
            }
        }
        f.write_char('"')
    }
}

/// A note as the last field of a line, left out when it is empty.
struct Note<'a>(&'a str);

impl Display for Note<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.0.is_empty() {
            return Ok(());
        }
        write!(f, ", note: {}", Quoted(self.0))
    }
}

/// When a race runs, as a field on a line of its own.
struct When<'a>(&'a Runs);

impl Display for When<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Runs { station, quiet_under_kn, worst_over_kn, sets_deg } = self.0;
        write!(f, ",\n            runs: (station: {}, ", Quoted(station))?;
        write!(f, "quiet_under_kn: {quiet_under_kn}, worst_over_kn: {worst_over_kn}")?;
        for (number, (first, second)) in sets_deg.iter().enumerate() {
            let before = if number == 0 { ",\n                sets_deg: [" } else { ", " };
            write!(f, "{before}({first}, {second})")?;
        }
        f.write_str(if sets_deg.is_empty() { ")" } else { "])" })
    }
}

/// A point as `(easting, northing)`.
struct Pair(Point);

impl Display for Pair {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "({}, {})", self.0.x, self.0.y)
    }
}

impl Writer<'_> {
    fn chart(&mut self, chart: &Chart, beside: Option<&str>) -> fmt::Result {
        writeln!(self.out, "(\n    version: {VERSION},")?;
        writeln!(self.out, "    title: {},", Quoted(&chart.title))?;
        writeln!(self.out, "    invented: {},", chart.invented)?;
        self.line("    ", "source", &chart.source)?;
        self.out.push_str("    grid: ");
        super::grid::write(self.out, &chart.grid)?;
        let (low, high) = (Pair(chart.extent.min()), Pair(chart.extent.max()));
        writeln!(self.out, "    extent: (south_west: {low}, north_east: {high}),")?;
        match beside {
            Some(path) => writeln!(self.out, "    shore: File({}),", Quoted(path))?,
            None => self.shore(chart)?,
        }
        self.list("drying", &chart.drying, Self::drying)?;
        self.list("depths", &chart.depths, Self::depth)?;
        self.list("landings", &chart.landings, Self::landing)?;
        self.list("hazards", &chart.hazards, Self::hazard)?;
        self.list("races", &chart.races, Self::race)?;
        self.list("gates", &chart.gates, Self::gate)?;
        self.list("places", &chart.places, Self::place)?;
        self.list("marks", &chart.marks, Self::mark)?;
        self.list("ports", &chart.ports, Self::port)?;
        self.list("streams", &chart.streams, Self::stream)?;
        writeln!(self.out, ")")
    }

    fn shore(&mut self, chart: &Chart) -> fmt::Result {
        self.out.push_str("    shore: Here([\n");
        chart.land.iter().try_for_each(|land| self.land(land))?;
        self.out.push_str("    ]),\n");
        self.list("shorelines", &chart.shorelines, |w, line| w.points("        ", "", line))
    }

    /// A list of the chart, left out when it is empty.
    fn list<T>(
        &mut self,
        name: &str,
        items: &[T],
        one: impl Fn(&mut Self, &T) -> fmt::Result,
    ) -> fmt::Result {
        if items.is_empty() {
            return Ok(());
        }
        writeln!(self.out, "    {name}: [")?;
        items.iter().try_for_each(|item| one(self, item))?;
        writeln!(self.out, "    ],")
    }

    /// A text on a line of its own, left out when it is empty.
    fn line(&mut self, indent: &str, name: &str, text: &str) -> fmt::Result {
        if text.is_empty() {
            return Ok(());
        }
        writeln!(self.out, "{indent}{name}: {},", Quoted(text))
    }

    /// Points, wrapped; `name` is the field's name with its colon, or nothing.
    fn points(&mut self, indent: &str, name: &str, points: &[Point]) -> fmt::Result {
        write!(self.out, "{indent}{name}[")?;
        let mut column = WIDTH;
        for point in points {
            let pair = Pair(*point).to_string();
            if column + pair.len() + 2 > WIDTH {
                write!(self.out, "\n{indent}    ")?;
                column = indent.len() + 4;
            } else {
                self.out.push(' ');
                column += 1;
            }
            write!(self.out, "{pair},")?;
            column += pair.len() + 1;
        }
        writeln!(self.out, "\n{indent}],")
    }

    fn land(&mut self, land: &Land) -> fmt::Result {
        const IN: &str = "            ";
        writeln!(self.out, "        (")?;
        self.line(IN, "name", &land.name)?;
        self.points(IN, "shore: ", &land.shore.0)?;
        if !land.lakes.is_empty() {
            writeln!(self.out, "{IN}lakes: [")?;
            for lake in &land.lakes {
                self.points("                ", "", &lake.0)?;
            }
            writeln!(self.out, "{IN}],")?;
        }
        writeln!(self.out, "        ),")
    }

    fn area(&mut self, head: fmt::Arguments<'_>, edge: &[Point]) -> fmt::Result {
        writeln!(self.out, "        ({head},")?;
        self.points("            ", "edge: ", edge)?;
        writeln!(self.out, "        ),")
    }

    fn drying(&mut self, d: &Drying) -> fmt::Result {
        self.area(format_args!("height_m: {}, ground: {:?}", d.height_m, d.ground), &d.edge.0)
    }

    fn depth(&mut self, d: &DepthArea) -> fmt::Result {
        self.area(format_args!("from_m: {}, to_m: {}", d.from_m, d.to_m), &d.edge.0)
    }

    fn race(&mut self, race: &Race) -> fmt::Result {
        let (name, note) = (Quoted(&race.name), Note(&race.note));
        match &race.runs {
            None => self.area(format_args!("name: {name}{note}"), &race.edge.0),
            Some(runs) => self.area(format_args!("name: {name}{note}{}", When(runs)), &race.edge.0),
        }
    }

    fn gate(&mut self, gate: &Gate) -> fmt::Result {
        let (name, station, note) = (Quoted(&gate.name), Quoted(&gate.station), Note(&gate.note));
        let (one, other, limit) = (Pair(gate.line.0), Pair(gate.line.1), gate.limit_kn);
        write!(self.out, "        (name: {name}, line: ({one}, {other}), station: {station},")?;
        write!(self.out, "\n            limit_kn: {limit}")?;
        if let Some(Sill { port, least_m }) = &gate.sill {
            write!(self.out, ", sill: (port: {}, least_m: {least_m})", Quoted(port))?;
        }
        writeln!(self.out, "{note}),")
    }

    fn landing(&mut self, l: &Landing) -> fmt::Result {
        let (name, at, note) = (Quoted(&l.name), Pair(l.at), Note(&l.note));
        let (ground, serves) = (l.ground, l.serves);
        writeln!(
            self.out,
            "        (name: {name}, at: {at}, ground: {ground:?}, serves: {serves:?}{note}),"
        )
    }

    fn hazard(&mut self, h: &Hazard) -> fmt::Result {
        let (name, at, kind, note) = (Quoted(&h.name), Pair(h.at), h.kind, Note(&h.note));
        writeln!(self.out, "        (name: {name}, at: {at}, kind: {kind:?}{note}),")
    }

    fn place(&mut self, p: &Place) -> fmt::Result {
        let (name, at, kind) = (Quoted(&p.name), Pair(p.at), p.kind);
        writeln!(self.out, "        (name: {name}, at: {at}, kind: {kind:?}),")
    }

    fn mark(&mut self, m: &Mark) -> fmt::Result {
        let (name, at, kind) = (Quoted(&m.name), Pair(m.at), m.kind);
        writeln!(self.out, "        (name: {name}, at: {at}, kind: {kind:?}),")
    }

    fn port(&mut self, port: &Port) -> fmt::Result {
        write!(self.out, "        (name: {}, at: {}, ", Quoted(&port.name), Pair(port.at))?;
        if !port.source.is_empty() {
            write!(self.out, "source: {}, ", Quoted(&port.source))?;
        }
        if let Some((first, last)) = port.years {
            write!(self.out, "years: ({first}, {last}), ")?;
        }
        if !port.seasonal_m.is_empty() {
            write!(self.out, "seasonal_m: {:?}, ", port.seasonal_m)?;
        }
        self.tide(&port.tide)
    }

    fn tide(&mut self, tide: &PortTide) -> fmt::Result {
        match tide {
            PortTide::Constants { mean_level_m, constituents } => {
                let head = format_args!("tide: Constants(mean_level_m: {mean_level_m}, ");
                self.constituents(head, constituents)
            }
            PortTide::Printed { zone, means, waters } => {
                self.out.push_str("tide: Printed(");
                if !zone.is_empty() {
                    write!(self.out, "zone: {}, ", Quoted(zone))?;
                }
                means.as_ref().map_or(Ok(()), |means| self.means(means))?;
                self.waters(waters)
            }
            PortTide::Differences {
                standard,
                high_water_min,
                low_water_min,
                high_water_m,
                low_water_m,
            } => {
                let standard = Quoted(standard);
                writeln!(
                    self.out,
                    "tide: Differences(standard: {standard},\n            \
                     high_water_min: {high_water_min:?}, low_water_min: {low_water_min:?},\n            \
                     high_water_m: {high_water_m:?}, low_water_m: {low_water_m:?})),"
                )
            }
        }
    }

    fn means(&mut self, means: &Means) -> fmt::Result {
        let (springs, neaps) = (means.springs_m, means.neaps_m);
        write!(self.out, "means: (springs_m: {springs}, neaps_m: {neaps}")?;
        if let Some(level) = means.level_m {
            write!(self.out, ", level_m: {level}")?;
        }
        self.out.write_str("), ")
    }

    fn waters(&mut self, waters: &[PrintedWater]) -> fmt::Result {
        writeln!(self.out, "waters: [")?;
        for PrintedWater { time, height_m, water } in waters {
            write!(self.out, "            ({}, {height_m}", Quoted(time))?;
            if let Some(water) = water {
                write!(self.out, ", {water:?}")?;
            }
            writeln!(self.out, "),")?;
        }
        writeln!(self.out, "        ])),")
    }

    fn constituents(&mut self, head: fmt::Arguments<'_>, all: &[Constituent]) -> fmt::Result {
        self.constituent_list(head, "constituents", all)?;
        writeln!(self.out, "        ])),")
    }

    fn constituent_list(
        &mut self,
        head: fmt::Arguments<'_>,
        what: &str,
        all: &[Constituent],
    ) -> fmt::Result {
        writeln!(self.out, "{head}{what}: [")?;
        for Constituent { name, amplitude, phase_deg } in all {
            writeln!(
                self.out,
                "            (name: {}, amplitude: {amplitude}, phase_deg: {phase_deg}),",
                Quoted(name)
            )?;
        }
        Ok(())
    }

    fn stream(&mut self, stream: &Stream) -> fmt::Result {
        let (name, at) = (Quoted(&stream.name), Pair(stream.at));
        match &stream.rates {
            StreamRates::Hourly { port, rows } => {
                let port = Quoted(port);
                writeln!(
                    self.out,
                    "        (name: {name}, at: {at}, rates: Hourly(port: {port}, rows: ["
                )?;
                for row in rows {
                    let (set, springs, neaps) = (row.set_deg, row.springs_kn, row.neaps_kn);
                    writeln!(
                        self.out,
                        "            (set_deg: {set}, springs_kn: {springs}, neaps_kn: {neaps}),"
                    )?;
                }
                writeln!(self.out, "        ])),")
            }
            StreamRates::Axis { flood_deg, constituents, across } => {
                let head = format_args!(
                    "        (name: {name}, at: {at}, rates: Axis(flood_deg: {flood_deg}, "
                );
                if across.is_empty() {
                    return self.constituents(head, constituents);
                }
                self.constituent_list(head, "constituents", constituents)?;
                self.constituent_list(format_args!("        ], "), "across", across)?;
                writeln!(self.out, "        ])),")
            }
            StreamRates::Greatest { flood_deg, port, flood_begins_h, springs_kn } => {
                let port = Quoted(port);
                writeln!(
                    self.out,
                    "        (name: {name}, at: {at}, rates: Greatest(flood_deg: {flood_deg}, \
                     port: {port},\n            flood_begins_h: {flood_begins_h}, springs_kn: {springs_kn})),"
                )
            }
        }
    }
}
