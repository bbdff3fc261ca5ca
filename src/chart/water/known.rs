//! How a port's tide is known: what a chart or a port file says of it, made ready to be asked.

use jiff::SignedDuration;
use jiff::tz::{Offset, TimeZone};
use nav::Length;
use nav::tide::{
    Differences, Harmonic, Height, HeightDifference, MeanRanges, PhaseLag, Printed, RangesError,
    SecondaryPort, TimeDifference,
};

use super::season::Months;
use super::{Basis, Fault, Gauge};
use crate::Chart;
use crate::model::{Constituent, Port, PortTide};
use crate::port::{FileTide, PortFile};
use crate::printed::{self, Means};

/// What tells a tide without another port.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Own {
    /// Constants.
    Constants(nav::tide::Port),
    /// A printed table.
    Table { name: String, table: Printed, zone: Option<TimeZone> },
}

impl Own {
    pub(super) fn name(&self) -> &str {
        match self {
            Own::Constants(port) => port.name(),
            Own::Table { name, .. } => name,
        }
    }

    /// `11 constants`, `8 printed high and low waters`.
    pub(super) fn said(&self) -> String {
        match self {
            Own::Constants(port) => match port.harmonics().len() {
                1 => "1 constant".to_owned(),
                count => format!("{count} constants"),
            },
            Own::Table { table, .. } => {
                format!("{} printed high and low waters", table.turns().len())
            }
        }
    }
}

/// A port that has its own constants or table, with what differences on it would need.
struct Standard {
    own: Own,
    ranges: Result<MeanRanges, RangesError>,
    /// Its mean level, if that is known.
    level: Option<Height>,
}

pub(super) fn gauge(chart: &Chart, port: &Port) -> Result<Gauge, Fault> {
    match &port.tide {
        PortTide::Differences { .. } => secondary(chart, port),
        _ => {
            let Standard { own, ranges, .. } = standard(port)?;
            let months = Months::new(&port.seasonal_m);
            Ok(Gauge {
                at: Some(port.at),
                ..of_own(&port.name, own, ranges, basis(chart, port), months)
            })
        }
    }
}

pub(super) fn of_file(file: PortFile) -> Gauge {
    let (name, months) = (file.name, Months::new(&file.seasonal_m));
    let basis = Basis { source: file.source, years: file.years, invented: false };
    match file.tide {
        FileTide::Constants(port) => {
            let ranges = port.mean_ranges();
            of_own(&name, Own::Constants(port), ranges, basis, months)
        }
        FileTide::Printed { table, ranges, zone } => {
            let own = Own::Table { name: name.clone(), table, zone };
            of_own(&name, own, ranges.ok_or(RangesError::NotStated), basis, months)
        }
    }
}

fn of_own(
    name: &str,
    own: Own,
    ranges: Result<MeanRanges, RangesError>,
    basis: Basis,
    months: Months,
) -> Gauge {
    Gauge {
        name: name.to_owned(),
        at: None,
        own,
        differences: None,
        ranges,
        basis,
        standard_basis: None,
        months,
        standard_months: Months::default(),
        raised: Length::ZERO,
    }
}

/// What a port states of its source; what it does not state, its chart may.
fn basis(chart: &Chart, port: &Port) -> Basis {
    let source = if port.source.is_empty() { &chart.source } else { &port.source };
    Basis { source: source.clone(), years: port.years, invented: chart.invented }
}

/// The port that tells its tide by itself.
fn standard(port: &Port) -> Result<Standard, Fault> {
    match &port.tide {
        PortTide::Constants { mean_level_m, constituents } => {
            let level = Height::above_datum(Length::from_metres(*mean_level_m)?);
            let own = constants(port, level, constituents)?;
            let ranges = own.mean_ranges();
            Ok(Standard { own: Own::Constants(own), ranges, level: Some(level) })
        }
        PortTide::Printed { zone, means, waters } => {
            let table = printed::table(zone, waters).map_err(|(_, misprint)| misprint)?;
            let zone = printed::zone(zone).map_err(|(_, misprint)| misprint)?;
            let ranges = means.as_ref().ok_or(RangesError::NotStated).and_then(Means::ranges);
            let level =
                means.and_then(|means| means.level_m).map(Length::from_metres).transpose()?;
            let own = Own::Table { name: port.name.clone(), table, zone };
            Ok(Standard { own, ranges, level: level.map(Height::above_datum) })
        }
        PortTide::Differences { .. } => Err(Fault::NotStandard(port.name.clone())),
    }
}

fn constants(
    port: &Port,
    mean_level: Height,
    constituents: &[Constituent],
) -> Result<nav::tide::Port, Fault> {
    let harmonic = |one: &Constituent| {
        Ok(Harmonic {
            constituent: nav::tide::Constituent::named(&one.name)?,
            amplitude: Length::from_metres(one.amplitude)?,
            phase: PhaseLag::from_degrees(one.phase_deg)?,
        })
    };
    let harmonics = constituents.iter().map(harmonic).collect::<Result<_, Fault>>()?;
    Ok(nav::tide::Port::new(port.name.as_str(), mean_level, harmonics)?)
}

/// The port of a chart's differences: times by the day's range, heights by the height, in proportion
/// between the standard port's mean springs and mean neaps and on beyond both.
fn secondary(chart: &Chart, port: &Port) -> Result<Gauge, Fault> {
    let PortTide::Differences {
        standard: name,
        high_water_min,
        low_water_min,
        high_water_m,
        low_water_m,
    } = &port.tide
    else {
        return Err(Fault::NotStandard(port.name.clone()));
    };
    let found = chart.ports.iter().find(|other| other.name == *name);
    let found = found.ok_or_else(|| Fault::NoPort(name.clone()))?;
    let Standard { own, ranges, level } = standard(found)?;
    let ranges = ranges.map_err(|why| Fault::Ranges { port: name.clone(), why })?;
    let mean = level.ok_or_else(|| Fault::NoLevel(name.clone()))?;
    let half = (ranges.springs() / 2.0, ranges.neaps() / 2.0);
    let high = kind(*high_water_min, *high_water_m, (mean + half.0, mean + half.1))?;
    let low = kind(*low_water_min, *low_water_m, (mean - half.0, mean - half.1))?;
    let metres = |high: f64, low: f64| Length::from_metres(high - low);
    let own_ranges = MeanRanges::new(
        ranges.springs() + metres(high_water_m.0, low_water_m.0)?,
        ranges.neaps() + metres(high_water_m.1, low_water_m.1)?,
    );
    let differences = SecondaryPort::new(high, low, Offset::UTC, Some(ranges))?;
    let months = Months::new(&port.seasonal_m);
    Ok(Gauge {
        at: Some(port.at),
        differences: Some(differences),
        standard_basis: Some(basis(chart, found)),
        standard_months: Months::new(&found.seasonal_m),
        ..of_own(&port.name, own, own_ranges, basis(chart, port), months)
    })
}

/// The differences of one kind of water, at springs and at neaps.
fn kind(
    minutes: (f64, f64),
    metres: (f64, f64),
    means: (Height, Height),
) -> Result<Differences, Fault> {
    let time = |minutes: f64| SignedDuration::from_secs((minutes * 60.0).round() as i64);
    let height = |mean, metres| Ok::<_, Fault>((mean, Length::from_metres(metres)?));
    Ok(Differences {
        time: TimeDifference::ByRange { springs: time(minutes.0), neaps: time(minutes.1) },
        height: HeightDifference::ByHeight {
            springs: height(means.0, metres.0)?,
            neaps: height(means.1, metres.1)?,
        },
    })
}
