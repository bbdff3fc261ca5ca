//! What stands on every page that could be carried.

use chart::Chart;
use nav::text;

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
