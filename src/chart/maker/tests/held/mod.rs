//! Everything that must hold of every chart that is made, found out from the chart alone.

mod broken;
mod lines;
mod sea;
mod things;
mod water;

use super::*;
use crate::coast::Coast;
use crate::model::{PlaceKind, Point};
use sea::{DOTS, Sea};
pub(super) use water::springs;

/// Everything that is wrong with a chart that was made.
pub(super) fn wrong(chart: &Chart) -> Vec<String> {
    let [coarse, fine] = DOTS;
    let found = wrong_by(chart, coarse);
    if found.is_empty() { found } else { wrong_by(chart, fine) }
}

/// The same with a sea of dots so far apart, in metres.
fn wrong_by(chart: &Chart, dot: f64) -> Vec<String> {
    let mut found: Vec<String> = faults(chart).iter().map(|fault| format!("{fault:?}")).collect();
    found.extend(doubts(chart).iter().map(|doubt| doubt.fault.to_string()));
    file_is_read_as_it_was_written(chart, &mut found);
    lines::hold(chart, &mut found);
    found.extend(with_sea(chart, &Coast::of(chart), dot));
    found
}

/// What is wrong by the sea: what a boat in the first port can reach on the chart.
fn with_sea(chart: &Chart, coast: &Coast, dot: f64) -> Vec<String> {
    let Some(port) = chart.ports.first() else { return vec!["the chart has no port".to_owned()] };
    let Some(sea) = Sea::new(chart, port.at, dot) else {
        return vec!["no water about the first port".to_owned()];
    };
    let mut found = Vec::new();
    let about = About { chart, coast, sea };
    things::hold(&about, &mut found);
    water::hold(&about, &mut found);
    found
}

/// A chart and what is asked of it again and again.
struct About<'a> {
    chart: &'a Chart,
    coast: &'a Coast,
    sea: Sea,
}

impl About<'_> {
    fn is_land(&self, at: Point) -> bool {
        self.coast.on_land(at)
    }

    /// How far the nearest shore of the sea is, in metres.
    fn off_shore(&self, at: Point) -> f64 {
        let sides = self.chart.land.iter().flat_map(|l| l.shore.sides());
        sides.fold(f64::MAX, |least, (a, b)| {
            let (d, _) = sketch::to_segment((at.x, at.y), (a.x, a.y), (b.x, b.y));
            least.min(d)
        })
    }
}

/// How far apart two points are, in metres.
fn apart(a: Point, b: Point) -> f64 {
    (a.x - b.x).hypot(a.y - b.y)
}

/// A chart that is made is a chart file like any other.
fn file_is_read_as_it_was_written(chart: &Chart, found: &mut Vec<String>) {
    match crate::format::read(&crate::format::write(chart)) {
        Ok(crate::format::ChartFile::Whole(read)) if read == *chart => {}
        Ok(_) => found.push("its file is read as another chart".to_owned()),
        Err(error) => found.push(format!("its file is not read: {error}")),
    }
}
