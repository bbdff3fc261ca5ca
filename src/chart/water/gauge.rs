//! The tide at a port.

use jiff::civil::Date;
use jiff::tz::{Offset, TimeZone};
use jiff::{SignedDuration, Timestamp};
use nav::stream::{HighWater, high_waters};
use nav::tide::{
    Curve, Differences, Harmonic, Height, HeightDifference, MeanRanges, PhaseLag, Printed,
    RangesError, SecondaryPort, TimeDifference, Turn,
};
use nav::{DateOutside, Length};

use super::{Fault, WaterError};
use crate::model::{Constituent, Port, PortTide};
use crate::port::PortFile;
use crate::{Chart, Point};

/// What rises by less between two turns, in metres, is a stand of the tide and no high and low water.
const STAND_M: f64 = 0.02;

/// How far beyond a stretch of time turns are looked for: as far as differences of time go, half a
/// day, and two tides more.
const MARGIN: SignedDuration = SignedDuration::from_hours(48);

/// A port whose tide can be told: from its own constants, or from those of its standard port.
#[derive(Debug, Clone, PartialEq)]
pub struct Gauge {
    name: String,
    at: Option<Point>,
    /// The port itself, or the one that the differences are on.
    standard: nav::tide::Port,
    differences: Option<SecondaryPort>,
    ranges: Result<MeanRanges, RangesError>,
}

/// The tide of a civil day.
#[derive(Debug, Clone, PartialEq)]
pub struct TideDay {
    /// When the day begins on its clock.
    pub from: Timestamp,
    /// When the next one begins.
    pub to: Timestamp,
    /// Its high and low waters, in order.
    pub turns: Vec<Turn>,
    /// The mean of the rises and falls that have an end in the day.
    pub range: Option<Length>,
    /// Where that range lies between mean neaps, 0, and mean springs, 1; nothing where the port's
    /// springs and neaps cannot be told.
    pub factor: Option<f64>,
}

/// The height of tide over a stretch of time.
#[derive(Debug, Clone)]
pub enum GaugeCurve {
    /// By constants.
    Constants(Curve),
    /// By half a turn of a cosine from each high or low water to the next; nothing where the
    /// differences turn a high and a low water about.
    Differences(Option<Printed>),
}

impl GaugeCurve {
    /// The height at an instant of the stretch.
    pub fn height(&self, at: Timestamp) -> Option<Height> {
        match self {
            GaugeCurve::Constants(curve) => Some(curve.height(at)),
            GaugeCurve::Differences(table) => {
                table.as_ref()?.height(at).ok().map(|height| height.cosine)
            }
        }
    }
}

impl Gauge {
    /// A port of a chart.
    pub(super) fn of(chart: &Chart, port: &Port) -> Result<Gauge, WaterError> {
        let found = match &port.tide {
            PortTide::Constants { .. } => {
                constants(port).map(|own| Gauge::of_constants(own, Some(port.at)))
            }
            PortTide::Differences { .. } => secondary(chart, port),
        };
        found.map_err(|why| WaterError::Port { port: port.name.clone(), why })
    }

    fn of_constants(port: nav::tide::Port, at: Option<Point>) -> Gauge {
        let (name, ranges) = (port.name().to_owned(), port.mean_ranges());
        Gauge { name, at, standard: port, differences: None, ranges }
    }

    /// Its name.
    pub fn name(&self) -> &str {
        &self.name
    }

    /// Where it stands on its chart; nothing of a port file.
    pub const fn at(&self) -> Option<Point> {
        self.at
    }

    /// The port whose constants are used: itself, or its standard port.
    pub const fn constants(&self) -> &nav::tide::Port {
        &self.standard
    }

    /// Whether it is known by differences on another port.
    pub const fn is_secondary(&self) -> bool {
        self.differences.is_some()
    }

    /// Its mean ranges.
    ///
    /// # Errors
    /// [`Fault::Ranges`] where springs and neaps cannot be told apart.
    pub fn ranges(&self) -> Result<MeanRanges, Fault> {
        self.ranges.map_err(|why| Fault::Ranges { port: self.name.clone(), why })
    }

    /// Its high and low waters from one instant to just before another, in order and by turns, but
    /// for rises of less than 2 cm, which are stands.
    ///
    /// # Errors
    /// [`DateOutside`] before 1900 and after 2100.
    pub fn waters(&self, from: Timestamp, to: Timestamp) -> Result<Vec<Turn>, DateOutside> {
        let mut turns = self.around(from, to)?;
        turns.retain(|turn| (from..to).contains(&turn.at));
        Ok(turns)
    }

    /// The same, and those about it on both sides.
    fn around(&self, from: Timestamp, to: Timestamp) -> Result<Vec<Turn>, DateOutside> {
        let before = from.checked_sub(MARGIN).map_err(|_| DateOutside { at: from })?;
        let after = to.checked_add(MARGIN).map_err(|_| DateOutside { at: to })?;
        let turns =
            self.standard.curve(before, after)?.high_and_low_waters(STAND_M * Length::METRE);
        Ok(match &self.differences {
            Some(differences) => differences.turns(&turns),
            None => turns,
        })
    }

    /// The high waters that streams are counted from, from two days before one instant to two days
    /// after another.
    pub(super) fn high_waters(
        &self,
        from: Timestamp,
        to: Timestamp,
        ranges: MeanRanges,
    ) -> Result<Vec<HighWater>, DateOutside> {
        Ok(high_waters(&self.around(from, to)?, ranges))
    }

    /// The height of tide from one instant to another, made ready for many questions.
    ///
    /// # Errors
    /// [`DateOutside`] before 1900 and after 2100.
    pub fn curve(&self, from: Timestamp, to: Timestamp) -> Result<GaugeCurve, DateOutside> {
        Ok(match self.differences {
            None => GaugeCurve::Constants(self.standard.curve(from, to)?),
            Some(_) => GaugeCurve::Differences(Printed::new(self.around(from, to)?).ok()),
        })
    }

    /// The height of tide at an instant; nothing where [`GaugeCurve`] has none.
    ///
    /// # Errors
    /// [`DateOutside`] before 1900 and after 2100.
    pub fn height(&self, at: Timestamp) -> Result<Option<Height>, DateOutside> {
        Ok(self.curve(at, at)?.height(at))
    }

    /// The tide of a civil day on the clock of `zone`.
    ///
    /// # Errors
    /// [`DateOutside`] before 1900 and after 2100.
    pub fn day(&self, date: Date, zone: &TimeZone) -> Result<TideDay, DateOutside> {
        let start = |date: Date| {
            let start = date.to_zoned_datetime(zone.clone()).map(|start| start.timestamp());
            start.map_err(|_| DateOutside { at: Timestamp::MAX })
        };
        let next = date.tomorrow().map_err(|_| DateOutside { at: Timestamp::MAX })?;
        let (from, to) = (start(date)?, start(next)?);
        let turns = self.around(from, to)?;
        let within = |turn: &Turn| (from..to).contains(&turn.at);
        let pairs = turns.windows(2).filter(|pair| pair.iter().any(within));
        let rises: Vec<Length> =
            pairs.map(|pair| (pair[1].height - pair[0].height).abs()).collect();
        let sum = rises.iter().copied().reduce(|sum, rise| sum + rise);
        let range = sum.map(|sum| sum / rises.len() as f64);
        let factor = self.ranges.ok().zip(range).map(|(ranges, range)| ranges.factor(range));
        let turns = turns.into_iter().filter(within).collect();
        Ok(TideDay { from, to, turns, range, factor })
    }
}

/// The port of a port file.
impl From<PortFile> for Gauge {
    fn from(file: PortFile) -> Gauge {
        Gauge::of_constants(file.port, None)
    }
}

/// The port of a chart's constants.
fn constants(port: &Port) -> Result<nav::tide::Port, Fault> {
    let PortTide::Constants { mean_level_m, constituents } = &port.tide else {
        return Err(Fault::NotStandard(port.name.clone()));
    };
    let harmonic = |one: &Constituent| {
        Ok(Harmonic {
            constituent: nav::tide::Constituent::named(&one.name)?,
            amplitude: Length::from_metres(one.amplitude)?,
            phase: PhaseLag::from_degrees(one.phase_deg)?,
        })
    };
    let harmonics = constituents.iter().map(harmonic).collect::<Result<_, Fault>>()?;
    let mean_level = Height::above_datum(Length::from_metres(*mean_level_m)?);
    Ok(nav::tide::Port::new(port.name.as_str(), mean_level, harmonics)?)
}

/// The port of a chart's differences: times by the day's range, heights by the height, in proportion
/// between the standard port's mean springs and mean neaps and on beyond both.
fn secondary(chart: &Chart, port: &Port) -> Result<Gauge, Fault> {
    let PortTide::Differences {
        standard,
        high_water_min,
        low_water_min,
        high_water_m,
        low_water_m,
    } = &port.tide
    else {
        return Err(Fault::NotStandard(port.name.clone()));
    };
    let found = chart.ports.iter().find(|other| other.name == *standard);
    let standard = constants(found.ok_or_else(|| Fault::NoPort(standard.clone()))?)?;
    let ranges = standard
        .mean_ranges()
        .map_err(|why| Fault::Ranges { port: standard.name().to_owned(), why })?;
    let half = (ranges.springs() / 2.0, ranges.neaps() / 2.0);
    let mean = standard.mean_level();
    let high = kind(*high_water_min, *high_water_m, (mean + half.0, mean + half.1))?;
    let low = kind(*low_water_min, *low_water_m, (mean - half.0, mean - half.1))?;
    let metres = |high: f64, low: f64| Length::from_metres(high - low);
    let own = MeanRanges::new(
        ranges.springs() + metres(high_water_m.0, low_water_m.0)?,
        ranges.neaps() + metres(high_water_m.1, low_water_m.1)?,
    );
    let differences = SecondaryPort::new(high, low, Offset::UTC, Some(ranges))?;
    Ok(Gauge {
        name: port.name.clone(),
        at: Some(port.at),
        standard,
        differences: Some(differences),
        ranges: own,
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
