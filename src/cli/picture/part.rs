//! Which part of a chart is meant.

use ::chart::{Chart, Extent, Point};
use anyhow::{Context, bail};
use clap::{ArgGroup, Args};
use nav::GridPoint;
use paper::card;
use plan::Route;

use crate::place;

/// The part of the chart.
#[derive(Debug, Args)]
#[command(group(ArgGroup::new("part").args(["extent", "around", "whole"])))]
pub(super) struct PartArgs {
    /// From corner to corner: two grid references, latitudes and longitudes, or names on the chart
    #[arg(long, value_names = ["REF", "REF"], num_args = 2, allow_hyphen_values = true)]
    extent: Option<Vec<String>>,
    /// About a place: a grid reference, a latitude and longitude, or a name on the chart
    #[arg(long, value_name = "REF", allow_hyphen_values = true)]
    around: Option<String>,
    /// How wide the part about it is, in km
    #[arg(long, value_name = "KM", requires = "around", default_value = "4", value_parser = kilometres)]
    width: f64,
    /// How high it is, in km; as it is wide, if none is given
    #[arg(long, value_name = "KM", requires = "around", value_parser = kilometres)]
    height: Option<f64>,
    /// The whole chart, also with a route
    #[arg(long)]
    whole: bool,
}

/// From ten metres to once round the Earth.
fn kilometres(text: &str) -> Result<f64, String> {
    let number = text.parse().ok().filter(|km| (0.01..=40_000.0).contains(km));
    number.ok_or_else(|| "write kilometres from 0.01 to 40000, such as 2.5".to_owned())
}

impl PartArgs {
    /// The part that is asked for; else all of the route, or of the chart.
    pub(super) fn extent(&self, chart: &Chart, route: Option<&Route>) -> anyhow::Result<Extent> {
        if let Some([one, other]) = self.extent.as_deref() {
            let corner = |text: &str| place::meant(chart, text.trim()).context("--extent");
            return between(corner(one)?, corner(other)?);
        }
        if let Some(place) = &self.around {
            let middle = place::meant(chart, place.trim()).context("--around")?;
            return self.about(chart, middle);
        }
        let of_route = route.filter(|_| !self.whole);
        Ok(card::around(of_route, &chart.grid).map(with_margin).unwrap_or(chart.extent))
    }

    fn about(&self, chart: &Chart, middle: Point) -> anyhow::Result<Extent> {
        // So wide on the ground: on World Mercator that is wider on the grid.
        let there = chart.grid.inverse(GridPoint::from_metres(middle.x, middle.y)?)?;
        let half = |km: f64| km * 1000.0 * there.scale / 2.0;
        let half = Point { x: half(self.width), y: half(self.height.unwrap_or(self.width)) };
        Ok(Extent::new(middle - half, middle + half))
    }
}

/// A little around a route, for the numbers of its points.
fn with_margin(extent: Extent) -> Extent {
    let margin = extent.width().max(extent.height()) * 0.06;
    let more = Point { x: margin, y: margin };
    Extent::new(extent.min() - more, extent.max() + more)
}

fn between(one: Point, other: Point) -> anyhow::Result<Extent> {
    let extent = Extent::new(one, other);
    // No grid is counted finer.
    if extent.width() < 1.0 || extent.height() < 1.0 {
        bail!(
            "--extent: the two corners lie on one line; give two that lie across from each other"
        );
    }
    Ok(extent)
}
