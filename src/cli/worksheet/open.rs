//! What a sheet is made of, opened.

use std::path::Path;

use ::chart::Chart;
use files::Source;
use paper::map::Scale;
use plan::Route;

use crate::Io;
use crate::day::Water;

/// The chart that is named, or the built-in one.
pub(super) fn chart(named: Option<&Path>, terminal: bool) -> anyhow::Result<Water> {
    match named {
        Some(path) if path != Path::new("practice") || path.exists() => Water::open(path, terminal),
        _ => Ok(Water::of(::chart::practice()?)),
    }
}

/// The route, which must be laid on this chart.
pub(super) fn route(path: &Path, chart: &Chart, io: &mut Io<'_>) -> anyhow::Result<Route> {
    let route = files::open_route(Source::or_input(path, &mut io.input))?;
    route.check_chart(chart)?;
    Ok(route)
}

/// `1:25000`, `1:25,000`, `25000`.
pub(super) fn scale(text: &str) -> Result<Scale, String> {
    let number = text.strip_prefix("1:").unwrap_or(text).replace([',', ' ', '_'], "");
    let one_to: u64 = number.parse().map_err(|_| "write a scale such as 1:25000".to_owned())?;
    // What is over the bound of the number is over that of scales.
    let one_to = u32::try_from(one_to).unwrap_or(u32::MAX);
    Scale::new(one_to).map_err(|error| error.to_string())
}
