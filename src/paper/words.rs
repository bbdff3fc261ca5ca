//! What stands on every page that could be carried.

use chart::Chart;
use nav::text;

use crate::map::Frame;

/// That a chart is of no real place.
pub const INVENTED: &str = "Invented chart: no such place.";

/// The cautions of a chart's pages: that the place is invented, if it is, where the chart comes from, and that nothing
/// here is for navigation.
#[must_use]
pub fn cautions(chart: &Chart) -> Vec<String> {
    let mut said = Vec::new();
    if chart.invented {
        said.push(INVENTED.to_owned());
    }
    if !chart.source.is_empty() && !chart.invented {
        let stop = if chart.source.ends_with('.') { "" } else { "." };
        said.push(format!("Chart from: {}{stop}", chart.source));
    }
    said.push(text::CAUTION.to_owned());
    said
}

/// What stands under the title of a chart that is worked on: what to measure, to see that it was printed at its scale.
#[must_use]
pub fn full_size(chart: &Chart, frame: &Frame) -> String {
    let metres = frame.interval();
    let far = if metres < 1000.0 {
        format!("{metres:.0} m")
    } else {
        format!("{:.0} km", metres / 1000.0)
    };
    format!(
        "{}, {}; printed at full size (100 %) a side of a grid square of {far} measures {:.1} mm",
        chart.title,
        frame.scale,
        frame.of_grid_metres(metres).0
    )
}
