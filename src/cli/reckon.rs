//! The arithmetic: CSV in, the same rows out with the answers appended.

use std::path::PathBuf;

use clap::{Args, Subcommand};

use crate::{Exit, Io};

/// What to reckon, and how to read and write.
///
/// Reads CSV with a header, its columns in any order, and writes the same rows with the answers
/// appended, at full precision, a row at a time. Other columns pass through. A row that cannot be
/// answered ends the run, with its line and column.
#[derive(Debug, Args)]
pub struct ReckonArgs {
    /// What to reckon.
    #[command(subcommand)]
    pub(crate) what: What,
    /// Leave the answers to such rows empty, and count them on standard error
    #[arg(long, global = true)]
    pub(crate) skip_bad: bool,
    /// Write a JSON object for each row, a line each
    #[arg(long, global = true)]
    pub(crate) json: bool,
    /// The file to read; - for standard input
    #[arg(global = true, default_value = "-")]
    pub(crate) file: PathBuf,
}

/// What to reckon.
#[derive(Debug, Clone, PartialEq, Eq, Subcommand)]
pub(crate) enum What {
    /// Distance and bearings of a geodesic: lat1, lon1, lat2, lon2 give distance_m, bearing1_deg,
    /// bearing2_deg
    Inverse,
    /// The end of a geodesic: lat1, lon1, bearing_deg, distance_m give lat2, lon2, bearing2_deg
    Direct,
    /// Distance and bearing of a rhumb line: lat1, lon1, lat2, lon2 give distance_m, bearing_deg
    Rhumb,
    /// Onto a grid: lat, lon give easting_m, northing_m, convergence_deg, scale, reference
    ToGrid {
        /// The grid: EPSG:27700, UTM:30N, MGRS, or chart:FILE for a chart's own
        #[arg(long)]
        grid: String,
    },
    /// From a grid: easting_m, northing_m, or reference (the middle of its square) give lat, lon
    FromGrid {
        /// The grid: EPSG:27700, UTM:30N, MGRS, or chart:FILE for a chart's own
        #[arg(long)]
        grid: String,
    },
    /// The magnetic field by WMM2025: lat, lon, height_km, year give variation_deg, dip_deg,
    /// horizontal_nt, north_nt, east_nt, down_nt, total_nt, variation_per_year_deg,
    /// variation_error_deg
    Variation,
}

pub(crate) fn run(_args: ReckonArgs, _io: &mut Io<'_>) -> anyhow::Result<Exit> {
    anyhow::bail!("nothing can be reckoned yet")
}
