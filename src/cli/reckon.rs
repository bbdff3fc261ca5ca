//! The arithmetic: CSV in, the same rows out with the answers appended.

use std::io::{BufRead, BufReader, Write};
use std::path::{Path, PathBuf};

use ::chart::water::{Gauge, Tides};
use anyhow::{Context, anyhow, bail};
use clap::{Args, Subcommand};
use nav::Grid;
use paper::exchange::Place;
use paper::exchange::record::{Record, RecordError, Records};

use crate::tide::pick;
use crate::{Exit, Io};

mod fix;
mod output;
mod question;
mod sea;
mod table;
mod water;

use output::Output;
use question::{Answers, Question};

use table::{Columns, Row};
use water::TideAt;

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
    /// A day's light: lat, lon, date give dawn_utc, rise_utc, noon_utc, set_utc, dusk_utc (empty
    /// where there is none), state (day-and-night, never-rises, never-sets); the day whose noon
    /// falls on the date, by the sun over the place
    Sun,
    /// What to steer for a track: track_deg, speed_kn, set_deg, drift_kn give heading_deg,
    /// ground_speed_kn, state (makes-way; set-back, its speed negative; cannot-hold, its cells empty)
    Heading,
    /// Where a heading leads: heading_deg, speed_kn, set_deg, drift_kn give track_deg,
    /// ground_speed_kn
    MadeGood,
    /// A fix: lat1, lon1, bearing1_deg, lat2, lon2, bearing2_deg, and further groups of three, give lat, lon,
    /// error_m: where the true bearings of known marks cross, and how far from there the farthest corner of
    /// their triangle lies that cuts at 30° or more (if none does, at a third of the widest cut), 0 for two
    Fix,
    /// Waves of a steady wind: wind_ms (the mean 10 m up; the manual's adjusted wind speed is made of it
    /// here), fetch_m, depth_m (empty for deep water), hours that it has blown (empty for long enough) give
    /// height_m (significant: the mean of the highest third), period_s (of the spectrum's peak), by the Shore
    /// Protection Manual of 1984; swell, streams, shoals and breaking are left out
    Waves,
    /// How far over the horizon a height is seen: eye_m, target_m (empty for the horizon itself), heights above
    /// the water, give distance_nm in usual refraction; haze and a light's own range are left out
    Horizon,
    /// The height of tide at a port: time (ISO 8601, UTC) gives height_m above the port's datum
    Tide {
        /// A port file in RON, of constants or a printed table; or chart:FILE#NAME for a port of a chart
        #[arg(long, value_name = "FILE")]
        port: String,
        /// The port of the chart, where its name does not stand behind a # in --port
        #[arg(long)]
        name: Option<String>,
    },
}

/// Reckons a whole table.
pub(crate) fn run(args: ReckonArgs, io: &mut Io<'_>) -> anyhow::Result<Exit> {
    let what = args.what.question()?;
    let (skip_bad, json) = (args.skip_bad, args.json);
    if args.file == Path::new(files::STANDARD_INPUT) {
        return Table { name: "stdin", what, skip_bad, json }
            .answer(io.input, io.output, io.errors);
    }
    let name = args.file.display().to_string();
    let mut input = BufReader::with_capacity(1 << 16, files::open_table(&args.file)?);
    Table { name: &name, what, skip_bad, json }.answer(&mut input, io.output, io.errors)
}

impl What {
    /// The question, with its grid or port; which columns it reads may depend on the header yet.
    fn question(&self) -> anyhow::Result<Question> {
        Ok(match self {
            What::Inverse => Question::Inverse,
            What::Direct => Question::Direct,
            What::Rhumb => Question::Rhumb,
            What::ToGrid { grid } => Question::ToGrid(grid_named(grid)?),
            What::FromGrid { grid } => Question::FromGrid(grid_named(grid)?),
            What::Variation => Question::Variation,
            What::Sun => Question::Sun,
            What::Heading => Question::Heading,
            What::MadeGood => Question::MadeGood,
            What::Fix => Question::Fix(2),
            What::Waves => Question::Waves,
            What::Horizon => Question::Horizon,
            What::Tide { port, name } => {
                Question::Tide(Box::new(TideAt::new(port_named(port, name.as_deref())?)))
            }
        })
    }
}

/// The grid of a name, or a chart's own for `chart:FILE`. The chart is never standard input,
/// which is the table's.
pub(crate) fn grid_named(name: &str) -> anyhow::Result<Grid> {
    match name.strip_prefix("chart:") {
        Some(file) => Ok(files::open_chart(file)?.grid),
        None => Grid::parse(name).context("--grid"),
    }
}

/// The port of a port file, or a chart's for `chart:FILE#NAME` and for `chart:FILE` with a name beside
/// it. Neither is ever standard input, which is the table's.
fn port_named(port: &str, name: Option<&str>) -> anyhow::Result<Gauge> {
    let Some(chart) = port.strip_prefix("chart:") else {
        if name.is_some() {
            bail!("--name: a port file has one port; names are those of chart:FILE");
        }
        return Ok(files::open_port(Path::new(port))?.into());
    };
    let (file, name) = match (name, chart.rsplit_once('#')) {
        (None, Some((file, name))) => (file, Some(name)),
        (name, _) => (chart, name),
    };
    let tides = Tides::of(&files::open_chart(Path::new(file))?)?;
    let names: Vec<&str> = tides.gauges().iter().map(Gauge::name).collect();
    let chosen = match (name, names.as_slice()) {
        (Some(name), names) => pick("port", names, name).context("--port")?,
        (None, [_]) => 0,
        (None, []) => bail!("--port: the chart has no ports, and so no tide"),
        (None, names) => {
            bail!("--port: which of the chart's ports? write chart:{file}#{}", names.join(" or #"))
        }
    };
    Ok(tides.gauges()[chosen].clone())
}

/// A table that is being answered.
struct Table<'a> {
    /// The input's name, for errors.
    name: &'a str,
    what: Question,
    skip_bad: bool,
    json: bool,
}

impl Table<'_> {
    fn answer(
        mut self,
        input: &mut dyn BufRead,
        output: &mut dyn Write,
        errors: &mut dyn Write,
    ) -> anyhow::Result<Exit> {
        let mut records = Records::new(input);
        let mut record = Record::default();
        if !records.read(&mut record).map_err(|error| self.unread(error))? {
            let what = format!("nothing to read; a header must name {}", self.what.needs());
            return Err(self.at(Place { line: 1, column: 1 }, &what));
        }
        let columns = self.columns(&record)?;
        let appends = self.what.appends();
        let rows = Output::new(self.json, &record);
        rows.header(&record, appends, output)?;
        let mut remarks = Remarks::default();
        let mut answers = Answers::default();
        while records.read(&mut record).map_err(|error| self.unread(error))? {
            answers.cells.clear();
            answers.remarks.clear();
            if let Err((place, what)) = self.row(&record, &columns, &mut answers) {
                if !self.skip_bad {
                    return Err(self.at(place, &what));
                }
                answers.cells.clear();
                answers.remarks.clear();
                remarks.skipped(place, what);
            }
            for remark in answers.remarks.drain(..) {
                remarks.add(remark, record.line);
            }
            rows.row(&record, &columns, appends, &answers.cells, output)?;
        }
        remarks.write(self.name, errors)?;
        Ok(Exit::Done)
    }

    /// The columns read; a grid's points may stand there as references.
    fn columns(&mut self, header: &Record) -> anyhow::Result<Columns> {
        let names = Columns::names(header);
        let has = |wanted: &str| names.iter().any(|name| name == wanted);
        if let Question::FromGrid(grid) = &self.what
            && has("reference")
            && !(has("easting_m") && has("northing_m"))
        {
            self.what = Question::FromReference(grid.clone());
        }
        if let Question::Fix(marks) = &mut self.what {
            *marks = fix::marks(has);
            if let Some(index) = fix::one_too_many(&names) {
                let what = format!("a mark too many: {} are the most", fix::MOST);
                return Err(self.at(header.place(index), &what));
            }
        }
        if self.json
            && let Some(second) = (1..names.len()).find(|&i| names[..i].contains(&names[i]))
        {
            let what = format!("a second column {}; JSON needs each name once", names[second]);
            return Err(self.at(header.place(second), &what));
        }
        Columns::find(header, self.what.reads(), &self.what.needs())
            .map_err(|(place, what)| self.at(place, &what))
    }

    fn row(
        &self,
        record: &Record,
        columns: &Columns,
        answers: &mut Answers,
    ) -> Result<(), (Place, String)> {
        let (cells, names) = (record.count(), columns.names.len());
        if cells != names {
            let what = format!("a row of {cells} cells under a header of {names}");
            return Err((record.place(cells.min(names)), what));
        }
        self.what
            .answer(&Row { record, columns }, answers)
            .map_err(|fault| (record.place(columns.read[fault.read].1), fault.what))
    }

    fn at(&self, place: Place, what: &str) -> anyhow::Error {
        anyhow!("{}:{}:{}: {what}", self.name, place.line, place.column)
    }

    fn unread(&self, error: RecordError) -> anyhow::Error {
        match error {
            RecordError::Malformed { place, what } => self.at(place, what),
            RecordError::Read(error) => anyhow::Error::from(error).context(self.name.to_owned()),
        }
    }
}

/// What is said on standard error after the last row: each thing once, with its count.
#[derive(Default)]
struct Remarks {
    skipped: u64,
    first_skipped: Option<(Place, String)>,
    /// What, on how many rows, and the first one's line. There are no more than a few kinds.
    kinds: Vec<(String, u64, usize)>,
}

impl Remarks {
    fn skipped(&mut self, place: Place, what: String) {
        self.skipped += 1;
        self.first_skipped.get_or_insert((place, what));
    }

    fn add(&mut self, remark: String, line: usize) {
        match self.kinds.iter_mut().find(|(kind, ..)| *kind == remark) {
            Some((_, count, _)) => *count += 1,
            None => self.kinds.push((remark, 1, line)),
        }
    }

    fn write(&self, name: &str, errors: &mut dyn Write) -> std::io::Result<()> {
        let rows =
            |count: u64| if count == 1 { "1 row".to_owned() } else { format!("{count} rows") };
        for (kind, count, line) in &self.kinds {
            writeln!(errors, "{}, the first in line {line}: {kind}", rows(*count))?;
        }
        if let Some((Place { line, column }, what)) = &self.first_skipped {
            let first = crate::Harmless(format!("{name}:{line}:{column}: {what}"));
            writeln!(errors, "{} without an answer, the first: {first}", rows(self.skipped))?;
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests;
