//! The stream at a station.

use jiff::{SignedDuration, Timestamp};
use nav::stream::{
    AxisStation, GreatestRates, HourlyRow, HourlyStation, Rule, Run, StreamHarmonic,
};
use nav::tide::{MeanRanges, PhaseLag};
use nav::triangle::Stream;
use nav::{Bearing, DateOutside, GridPoint, Length, Speed, True};

use super::{Fault, Gauge, Shares, Tides, WaterError};
use crate::model::{self, Constituent, StreamRates, StreamRow};
use crate::shore::OffGrid;
use crate::{Chart, Point};

/// Half a tide of the moon, M2's: from the turn to the flood to the turn to the ebb.
const HALF_TIDE: SignedDuration = SignedDuration::from_secs(22_357);

/// How a station's stream is known.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Known {
    /// By rows for the hours about high water at a port.
    Hourly,
    /// By constants along an axis.
    Constants,
    /// By its greatest rate alone, as much both ways, in proportion to the day's range, and grown by
    /// the rule of fifty and ninety: common practice, no published source.
    GreatestRate,
}

/// A station whose stream can be told.
#[derive(Debug, Clone, PartialEq)]
pub struct Station {
    name: String,
    at: Point,
    /// Grid metres to a metre on the ground there.
    pub(super) scale: f64,
    how: How,
}

#[derive(Debug, Clone, PartialEq)]
enum How {
    Hourly { by: Clock, station: Box<HourlyStation> },
    Axis(AxisStation),
    Greatest { by: Clock, rates: GreatestRates },
}

/// The port whose high water a stream goes by: its number among the gauges, and its mean ranges, or
/// why they are not known.
#[derive(Debug, Clone, PartialEq)]
struct Clock {
    gauge: usize,
    ranges: Result<MeanRanges, Fault>,
}

impl Clock {
    fn of(gauges: &[Gauge], name: &str) -> Result<Clock, Fault> {
        let gauge = gauges.iter().position(|gauge| gauge.name() == name);
        let gauge = gauge.ok_or_else(|| Fault::NoPort(name.to_owned()))?;
        Ok(Clock { gauge, ranges: gauges[gauge].ranges() })
    }
}

impl Station {
    pub(super) fn of(
        chart: &Chart,
        gauges: &[Gauge],
        stream: &model::Stream,
    ) -> Result<Station, WaterError> {
        let found = || {
            let how = how(gauges, stream)?;
            let scale = scale(chart, stream.at)?;
            Ok(Station { name: stream.name.clone(), at: stream.at, scale, how })
        };
        found().map_err(|why| WaterError::Stream { stream: stream.name.clone(), why })
    }

    /// Its name.
    pub fn name(&self) -> &str {
        &self.name
    }

    /// Where it was measured.
    pub const fn at(&self) -> Point {
        self.at
    }

    /// How it is known.
    pub const fn known(&self) -> Known {
        match self.how {
            How::Hourly { .. } => Known::Hourly,
            How::Axis(_) => Known::Constants,
            How::Greatest { .. } => Known::GreatestRate,
        }
    }

    const fn clock(&self) -> Option<&Clock> {
        match &self.how {
            How::Axis(_) => None,
            How::Hourly { by, .. } | How::Greatest { by, .. } => Some(by),
        }
    }

    /// The number among [`Tides::gauges`] of the port whose high waters it goes by; nothing where it has
    /// constants of its own.
    pub fn goes_by(&self) -> Option<usize> {
        self.clock().map(|clock| clock.gauge)
    }

    /// Why its stream is never known: the port that it goes by states no springs and neaps, between
    /// which its rates lie. Nothing where it is known.
    pub fn unknown(&self) -> Option<&Fault> {
        self.clock()?.ranges.as_ref().err()
    }

    /// Its stream over a stretch of time, and beyond it at both ends; by a printed table no further
    /// than the hours about its own high waters, and none at all where it is [`Station::unknown`].
    fn run(&self, gauges: &[Gauge], from: Timestamp, to: Timestamp) -> Result<Run, DateOutside> {
        let waters = |by: &Clock| match by.ranges {
            Ok(ranges) => gauges[by.gauge].high_waters(from, to, ranges),
            Err(_) => Ok(Vec::new()),
        };
        Ok(match &self.how {
            How::Axis(station) => station.run(from, to)?,
            How::Hourly { by, station } => station.run(&waters(by)?),
            How::Greatest { by, rates } => {
                let times = |factor: f64| {
                    let Ok(ranges) = by.ranges else { return 0.0 };
                    let more = (ranges.springs() - ranges.neaps()) * factor;
                    (ranges.neaps() + more) / ranges.springs()
                };
                let waters = waters(by)?;
                let scaled = waters.iter().map(|water| (water.at, times(water.factor)));
                rates.run_scaled(&scaled.collect::<Vec<_>>())
            }
        })
    }
}

fn how(gauges: &[Gauge], stream: &model::Stream) -> Result<How, Fault> {
    Ok(match &stream.rates {
        StreamRates::Hourly { port, rows } => {
            let rows: Vec<(i8, HourlyRow)> = (-6..=6_i8)
                .chain(7..)
                .zip(rows)
                .map(|(hour, row)| Ok((hour, hourly(row)?)))
                .collect::<Result<_, Fault>>()?;
            let station = Box::new(HourlyStation::new(&rows)?);
            How::Hourly { by: Clock::of(gauges, port)?, station }
        }
        StreamRates::Axis { flood_deg, constituents, across } => {
            let harmonics = |all: &[Constituent]| all.iter().map(harmonic).collect();
            let (along, across): (Result<Vec<_>, Fault>, Result<Vec<_>, Fault>) =
                (harmonics(constituents), harmonics(across));
            let axis = Bearing::from_degrees(*flood_deg)?;
            let none = Stream { set: axis, drift: Speed::from_knots(0.0)? };
            How::Axis(AxisStation::new(&stream.name, axis, &along?, &across?, none)?)
        }
        StreamRates::Greatest { flood_deg, port, flood_begins_h, springs_kn } => {
            let flood: Bearing<True> = Bearing::from_degrees(*flood_deg)?;
            let drift = Speed::from_knots(*springs_kn)?;
            let begins = SignedDuration::from_secs((flood_begins_h * 3600.0).round() as i64);
            let rates = GreatestRates {
                first: Stream { set: flood, drift },
                first_begins: begins,
                second: Stream { set: flood.back(), drift },
                second_begins: begins + HALF_TIDE,
                rule: Rule::FiftyNinety,
            };
            How::Greatest { by: Clock::of(gauges, port)?, rates }
        }
    })
}

fn hourly(row: &StreamRow) -> Result<HourlyRow, Fault> {
    Ok(HourlyRow {
        set: Bearing::from_degrees(row.set_deg)?,
        springs: Speed::from_knots(row.springs_kn)?,
        neaps: Speed::from_knots(row.neaps_kn)?,
    })
}

fn harmonic(one: &Constituent) -> Result<StreamHarmonic, Fault> {
    Ok(StreamHarmonic {
        constituent: nav::tide::Constituent::named(&one.name)?,
        rate: Speed::from_knots(one.amplitude)?,
        phase: PhaseLag::from_degrees(one.phase_deg)?,
    })
}

/// Grid metres to a metre on the ground.
fn scale(chart: &Chart, at: Point) -> Result<f64, Fault> {
    let on_grid = || -> Result<f64, OffGrid> {
        let position = chart.grid.inverse(GridPoint::from_metres(at.x, at.y)?)?.position;
        Ok(chart.grid.forward(position)?.scale)
    };
    Ok(on_grid()?)
}

/// The streams of all stations of a chart over a stretch of time.
#[derive(Debug, Clone, PartialEq)]
pub struct Flows {
    runs: Vec<Run>,
}

impl Tides {
    /// The streams of all stations from one instant to another.
    ///
    /// # Errors
    /// [`DateOutside`] before 1900 and after 2100.
    pub fn flows(&self, from: Timestamp, to: Timestamp) -> Result<Flows, DateOutside> {
        let runs = self.stations().iter().map(|station| station.run(self.gauges(), from, to));
        Ok(Flows { runs: runs.collect::<Result<_, _>>()? })
    }
}

impl Flows {
    /// The stream of a station, by its number among [`Tides::stations`].
    pub fn station(&self, station: usize) -> Option<&Run> {
        self.runs.get(station)
    }

    /// The stream over the whole stretch at a place that has these shares: turns, slack and limits
    /// of the blend are its own. Nothing where there is no data.
    pub fn run(&self, shares: &Shares) -> Option<Run> {
        match self.parts(shares).as_slice() {
            [] => None,
            [(_, only)] => Some((*only).clone()),
            parts => Some(Run::blended(parts)),
        }
    }

    /// How much of which station's stream a place that has these shares has, for a stretch of a
    /// [passage](nav::passage). Nothing where there is no data.
    pub fn parts(&self, shares: &Shares) -> Vec<(f64, &Run)> {
        let part = |share: &super::Share| Some((share.part, self.runs.get(share.station)?));
        shares.parts().iter().filter_map(part).collect()
    }

    /// The stream at an instant at a place that has these shares. Nothing where there is no data,
    /// and outside the stretch of time.
    pub fn at(&self, shares: &Shares, at: Timestamp) -> Option<Stream> {
        let parts = shares.parts();
        if let [only] = parts {
            return self.runs.get(only.station)?.at(at);
        }
        let (mut east, mut north) = (0.0, 0.0);
        for share in parts {
            let stream = self.runs.get(share.station)?.at(at)?;
            let (sin, cos) = stream.set.as_degrees().to_radians().sin_cos();
            let rate = share.part * stream.drift.as_metres_per_second();
            east += rate * sin;
            north += rate * cos;
        }
        let drift = Speed::from_metres_per_second(east.hypot(north)).ok()?;
        let set = Bearing::from_degrees(east.atan2(north).to_degrees()).ok()?;
        (!parts.is_empty()).then_some(Stream { set, drift })
    }
}

impl Station {
    /// How far away on the ground a point is, near enough for weighing: by the station's own scale.
    pub(super) fn away(&self, point: Point) -> Length {
        let apart = point - self.at;
        (apart.x.hypot(apart.y) / self.scale) * Length::METRE
    }
}
